/// Text of a page, made so that every tag that is opened is closed.
///
///   Html h;
///   h.inside("tr", {}, [&] { h.element("th", {{"scope", "row"}}, name); });
///
/// What is written is escaped, names from a plan or a file's name included; what is no UTF-8 or can't be shown becomes '?'
/// (grid/clean_text.h). A number stays on the line of its unit. Names of tags and attributes are the program's own and are taken as they are.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tidemark::report {

/// For text and for attributes: & < > " and '.
std::string escaped(std::string_view);

/// The blank between a digit and its unit becomes one that breaks no line.
std::string with_units(std::string_view);

class Html {
  public:
    using Attributes = std::vector<std::pair<std::string_view, std::string>>;
    template <class Inside> void inside(std::string_view tag, const Attributes& attributes, Inside&& write) {
        open(tag, attributes);
        write();
        close(tag);
    }
    void element(std::string_view tag, const Attributes& attributes, std::string_view words) {
        inside(tag, attributes, [&] { text(words); });
    }
    void single(std::string_view tag, const Attributes& attributes) { open(tag, attributes); } ///< meta, img, br
    void text(std::string_view words) { text_ += escaped(with_units(words)); }
    void raw(std::string_view markup) { text_ += markup; } ///< a doctype, a style, or what another Html has made
    const std::string& str() const { return text_; }

  private:
    void open(std::string_view tag, const Attributes&);
    void close(std::string_view tag);
    std::string text_;
};

} // namespace tidemark::report
