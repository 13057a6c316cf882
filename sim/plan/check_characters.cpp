#include "grid/problem.h"
#include "plan/document_detail.h"

#include <cctype>
#include <fmt/format.h>

namespace tidemark::plan {

namespace {

constexpr int most_dots = 16; ///< in one key; deeper than any key a plan has

/// The letter that begins at `at`, or its first byte's number when that is no UTF-8.
std::string letter(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t k) { return k < text.size() ? static_cast<unsigned char>(text[k]) : 0u; };
    const std::size_t length = byte(at) >= 0xF0 ? 4 : byte(at) >= 0xE0 ? 3 : byte(at) >= 0xC2 ? 2 : 0;
    bool valid = length > 0 && byte(at) < 0xF5;
    for (std::size_t k = 1; k < length; ++k)
        valid = valid && (byte(at + k) & 0xC0) == 0x80;
    return valid ? std::string(text.substr(at, length)) : fmt::format("byte 0x{:02X}", byte(at));
}

/// Walks over the text outside strings and comments.
class Walk {
  public:
    Walk(std::string_view text, const std::string& file) : text_(text), file_(file) {}

    void run() {
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (c == '"' || c == '\'')
                skip_string(c);
            else if (c == '#')
                at_ = std::min(text_.find('\n', at_), text_.size());
            else
                plain(c);
        }
    }

  private:
    void plain(char c) {
        if (static_cast<unsigned char>(c) >= 0x80)
            refuse(letter(text_, at_));
        if (c == '.')
            ++dots_;
        else if (c == '\n' || c == '=' || c == ',' || c == '[' || c == '{')
            dots_ = 0;
        if (dots_ > most_dots)
            throw grid::BadInput(where(), "a key with more than 16 dots");
        if (c == '\n')
            ++line_;
        ++at_;
    }

    [[noreturn]] void refuse(const std::string& letter) const {
        if (letter == "\uFEFF")
            throw grid::BadInput(where(), "a byte-order mark inside the file", "none, or in front");
        if (letter == "“" || letter == "”" || letter == "„" || letter == "‘" || letter == "’")
            throw grid::BadInput(where(), "the curly quote " + letter, "straight quotes, \"...\"");
        throw grid::BadInput(where(), letter + " outside quotes",
                             "plain letters; a name or text with other letters goes in quotes, \"...\"");
    }

    /// To behind the closing quote, or to where the string is broken off (the library reports that).
    void skip_string(char quote) {
        // A quote in the middle of a word opens none: the library reads on to the word's end.
        const bool in_word = at_ > 0 && (std::isalnum(static_cast<unsigned char>(text_[at_ - 1])) || std::string_view("_-+.:").find(text_[at_ - 1]) != std::string_view::npos);
        const std::string three(3, quote);
        const bool many_lines = text_.substr(at_, 3) == three;
        at_ += many_lines ? 3 : 1;
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (c == '\n' && !many_lines)
                return;
            if (c == '\n')
                ++line_;
            if (in_word && static_cast<unsigned char>(c) >= 0x80)
                refuse(letter(text_, at_));
            if (c == '\\' && quote == '"') {
                at_ += 2;
                if (at_ - 1 < text_.size() && text_[at_ - 1] == '\n')
                    ++line_;
                continue;
            }
            if (many_lines ? text_.substr(at_, 3) == three : c == quote) {
                at_ += many_lines ? 3 : 1;
                while (many_lines && at_ < text_.size() && text_[at_] == quote)
                    ++at_; // """a"""" ends with a quote
                return;
            }
            ++at_;
        }
    }

    std::string where() const { return fmt::format("{}:{}", file_, line_); }

    std::string_view text_;
    const std::string& file_;
    std::size_t at_ = 0;
    int line_ = 1, dots_ = 0;
};

} // namespace

void check_characters(std::string_view text, const std::string& file) { Walk(text, file).run(); }

} // namespace tidemark::plan
