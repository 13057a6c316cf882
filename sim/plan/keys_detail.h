/// One table of a plan, read key by key. What was asked for is known, so finish() can report every key that nobody
/// asked for, with the nearest one that somebody did. Problems are collected; after one, a reader returns a value
/// that is in range, so that reading can go on.
#pragma once
#include "plan/document_detail.h"
#include "plan/problems_detail.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::plan {

struct Range {
    double lo = 0, hi = 0;
    std::string unit = {};    ///< "mm", "cm²/s"; empty for a bare number
    bool above_lo = false;    ///< lo itself is not allowed
    std::string text() const; ///< "0.5 to 100 cm²/s"
    bool holds(double value) const;
};

template <class Enum> using Words = std::vector<std::pair<std::string, Enum>>;

class Keys {
  public:
    /// `who` begins every message about this table: `step "sky"`, "[sheet]"; empty for the top of the file.
    Keys(const Value& table, std::string who, Problems& problems);
    void rename(std::string who) { who_ = std::move(who); }
    int line() const { return table_->line; }
    int line(const std::string& key) const; ///< of the key, or of the table

    const Value* find(const std::string& key); ///< nullptr when absent
    bool has(const std::string& key) { return find(key) != nullptr; }
    /// Without `otherwise` the key must be there.
    double number(const std::string& key, const Range&, std::optional<double> otherwise = {});
    std::int64_t whole(const std::string& key, std::int64_t lo, std::int64_t hi, std::optional<std::int64_t> = {});
    /// `allowed`, for messages: what kind of text.
    std::string text(const std::string& key,
                     std::optional<std::string> otherwise = {},
                     const std::string& allowed = "text in quotes");
    bool truth(const std::string& key, bool otherwise);
    /// "m:ss" in seconds.
    double clock(const std::string& key, std::optional<double> otherwise = {});
    /// Two numbers, [x, y]; `meaning` for messages: "[width, height], each 30 to 1200 mm".
    std::optional<std::pair<double, double>>
    pair(const std::string& key, const Range& first, const Range& second, const std::string& meaning);
    template <class Enum> Enum word(const std::string& key, const Words<Enum>&, std::optional<Enum> otherwise = {});
    const Value* table(const std::string& key);               ///< nullptr when absent or no table
    const std::vector<Value>* tables(const std::string& key); ///< [[key]]; nullptr when absent or no such

    void refuse(const std::string& key, const std::string& what, const std::string& allowed = {});
    std::string said(const std::string& what) const { return who_.empty() ? what : who_ + ": " + what; }
    void finish(); ///< reports every key that was never asked for
    const std::vector<Entry>& entries() const { return table_->table; }

  private:
    void refuse_kind(const std::string& key, const Value&, const std::string& allowed);
    void refuse_missing(const std::string& key, const std::string& allowed);
    bool refuse_controls(const std::string& key, const std::string& text);
    const Value* required(const std::string& key, bool needed, const std::string& allowed);

    const Value* table_;
    std::string who_;
    Problems* problems_;
    std::vector<std::string> asked_;
};

template <class Enum>
Enum Keys::word(const std::string& key, const Words<Enum>& words, std::optional<Enum> otherwise) {
    std::string allowed;
    for (std::size_t k = 0; k < words.size(); ++k)
        allowed += (k == 0 ? "" : k + 1 == words.size() ? " or " : ", ") + words[k].first;
    const Enum fallback = otherwise.value_or(words.front().second);
    const Value* value = required(key, !otherwise, allowed);
    if (value == nullptr)
        return fallback;
    if (value->kind != Value::Kind::text) {
        refuse_kind(key, *value, allowed);
        return fallback;
    }
    for (const auto& [name, meaning] : words)
        if (name == value->text)
            return meaning;
    refuse(key, key + " is " + in_quotes(value->text), allowed);
    return fallback;
}

} // namespace tidemark::plan
