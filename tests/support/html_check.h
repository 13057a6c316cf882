/// A strict reader of a page: what a browser would silently mend is a fault here.
///
///   const HtmlCheck page(text);
///   CHECK(page.problems == std::vector<std::string>{});
///
/// Every tag that is not void is closed, in order, and spelled in small letters; attributes are quoted and there once;
/// `&` and `<` in text are escaped; ids are unique, and what refers to one finds it; pictures lie inside and have words;
/// nothing is fetched or run; tables have a caption first and heads with a scope; headings skip no level.
#pragma once
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace tidemark::tests {

class HtmlCheck {
  public:
    struct Element {
        std::string tag, parent, text; ///< text: directly in it
        std::map<std::string, std::string> attributes;
    };
    std::vector<std::string> problems;
    std::vector<Element> elements; ///< in the order they open

    explicit HtmlCheck(const std::string& page) : page_(page) {
        if (page_.rfind("<!DOCTYPE html>\n<html lang=\"en\">", 0) != 0) fault("does not begin as a page in English");
        for (at_ = page_.find('>') + 1; at_ < page_.size();) page_[at_] == '<' ? read_tag() : read_text();
        for (const std::size_t open : open_) fault("<" + elements[open].tag + "> is never closed");
        check_references();
        check_headings();
    }
    std::size_t count(const std::string& tag) const {
        std::size_t n = 0;
        for (const Element& e : elements) n += e.tag == tag ? 1 : 0;
        return n;
    }

  private:
    std::string page_;
    std::size_t at_ = 0;
    std::vector<std::size_t> open_;

    void fault(const std::string& what) {
        if (problems.size() < 20) problems.push_back(what + " (byte " + std::to_string(at_) + ")");
    }
    std::string parent() const { return open_.empty() ? "" : elements[open_.back()].tag; }

    void read_text() {
        const std::size_t end = std::min(page_.find('<', at_), page_.size());
        const std::string text = page_.substr(at_, end - at_);
        if (parent() != "style")
            for (std::size_t k = text.find('&'); k != std::string::npos; k = text.find('&', k + 1)) check_entity(text, k);
        if (!open_.empty()) elements[open_.back()].text += text;
        else if (text.find_first_not_of("\n") != std::string::npos) fault("text outside of the page");
        at_ = end;
    }
    void check_entity(const std::string& text, std::size_t k) {
        for (const char* known : {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"})
            if (text.compare(k, std::string(known).size(), known) == 0) return;
        fault("a bare &");
    }

    void read_tag() {
        const std::size_t end = page_.find('>', at_); // no attribute holds one that is not escaped
        if (end == std::string::npos) {
            fault("a tag without end");
            at_ = page_.size();
            return;
        }
        const std::string tag = page_.substr(at_ + 1, end - at_ - 1);
        tag.rfind('/', 0) == 0 ? close(tag.substr(1)) : open(tag);
        at_ = end + 1;
    }
    void close(const std::string& tag) {
        if (parent() != tag) fault("</" + tag + "> where <" + parent() + "> is open");
        if (!open_.empty()) open_.pop_back();
    }
    void open(const std::string& words) {
        static const std::set<std::string> known{
            "html", "head",    "meta",  "title", "style", "body",  "main",    "section", "h1",      "h2",     "p",
            "b",    "span",    "br",    "ul",    "ol",    "li",    "div",     "table",   "caption", "thead",  "tbody",
            "tr",   "th",      "td",    "svg",   "defs",  "path",  "pattern", "circle",  "rect",    "text",   "figure",
            "img",  "figcaption"};
        static const std::map<std::string, std::string> within{
            {"li", "ul ol"},       {"caption", "table"}, {"thead", "table"}, {"tbody", "table"},       {"tr", "thead tbody"},
            {"th", "tr"},          {"td", "tr"},         {"pattern", "defs"}, {"figcaption", "figure"}, {"title", "head"}};
        static const std::set<std::string> voids{"meta", "br", "img"};
        static const std::set<std::string> phrases{"p", "h1", "h2", "b", "span", "caption", "figcaption"};
        static const std::set<std::string> blocks{"p", "div", "section", "table", "ul", "ol", "h1", "h2", "figure"};
        Element e;
        e.tag = words.substr(0, words.find(' '));
        e.parent = parent();
        if (known.count(e.tag) == 0) fault("<" + e.tag + "> is not known here");
        const auto place = within.find(e.tag);
        if (place != within.end() && (" " + place->second + " ").find(" " + e.parent + " ") == std::string::npos)
            fault("<" + e.tag + "> in <" + e.parent + ">");
        if (phrases.count(e.parent) && blocks.count(e.tag)) fault("<" + e.tag + "> in <" + e.parent + ">");
        if (e.parent == "ul" || e.parent == "ol" || e.parent == "tr")
            if (place == within.end()) fault("<" + e.tag + "> in <" + e.parent + ">");
        if (e.tag == "caption" && elements.back().tag != "table") fault("a caption that is not first");
        read_attributes(words.substr(e.tag.size()), e);
        check(e);
        elements.push_back(e);
        if (voids.count(e.tag) == 0) open_.push_back(elements.size() - 1);
    }
    void read_attributes(std::string words, Element& e) {
        static const std::regex one("^ ([a-zA-Z-]+)=\"([^\"<>]*)\"");
        while (!words.empty()) {
            const std::size_t quote = words.find('"'), end = quote == std::string::npos ? quote : words.find('"', quote + 1);
            std::smatch found;
            // Long values are not for std::regex: the name alone is matched, the value is cut out.
            const std::string head = quote == std::string::npos ? words : words.substr(0, quote) + "\"\"";
            if (end == std::string::npos || !std::regex_search(head, found, one)) return fault("attributes:" + words.substr(0, 60));
            const std::string value = words.substr(quote + 1, end - quote - 1);
            if (value.find_first_of("<>") != std::string::npos) fault("a bare < in " + found[1].str());
            for (std::size_t k = value.find('&'); k != std::string::npos; k = value.find('&', k + 1)) check_entity(value, k);
            if (!e.attributes.emplace(found[1].str(), value).second) fault(found[1].str() + " twice");
            words = words.substr(end + 1);
        }
    }
    void check(const Element& e) {
        const auto has = [&](const char* name) { return e.attributes.count(name) > 0; };
        if (e.tag == "img") {
            if (!has("src") || e.attributes.at("src").rfind("data:image/", 0) != 0) fault("a picture that is not inside");
            if (!has("alt") || e.attributes.at("alt").size() < 20) fault("a picture without words");
        }
        if (e.tag == "th" && !has("scope")) fault("a head without scope");
        if (e.tag == "svg" && !has("aria-hidden") && !has("aria-label")) fault("a drawing without words");
        for (const auto& [name, value] : e.attributes) {
            if (name.rfind("on", 0) == 0 || name == "href" || name == "srcset") fault("attribute " + name);
            if (name != "src" && value.find("://") != std::string::npos) fault("an address in " + name);
            if (name == "src" && value.rfind("data:", 0) != 0) fault("an address in src");
        }
    }
    void check_references() {
        std::set<std::string> ids;
        for (const Element& e : elements)
            if (e.attributes.count("id") && !ids.insert(e.attributes.at("id")).second) fault("id " + e.attributes.at("id") + " twice");
        for (const Element& e : elements)
            for (const auto& [name, value] : e.attributes) {
                if (name == "aria-labelledby" && ids.count(value) == 0) fault("no id " + value);
                if (name == "fill" && value.rfind("url(#", 0) == 0 && ids.count(value.substr(5, value.size() - 6)) == 0)
                    fault("no pattern " + value);
            }
        for (const char* fetched : {"@import", "http:", "https:"})
            if (page_.find(fetched) != std::string::npos) fault(std::string("something is fetched: ") + fetched);
    }
    void check_headings() {
        if (count("h1") != 1 || count("title") != 1 || count("main") != 1) fault("not one h1, title and main");
        if (count("table") != count("caption")) fault("a table without caption");
    }
};

} // namespace tidemark::tests
