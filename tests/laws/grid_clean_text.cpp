// Names of files, cleaned for comments and titles.
#include "grid/clean_text.h"

#include <catch2/catch.hpp>

using tidemark::grid::clean_text;

TEST_CASE("text in UTF-8 stays as it is", "[law][grid]") {
    for (const std::string text : {"", "two pears.jpg", "caf\u00e9", "\u00a0\u07ff\u0800\u20ac\ud7a3\ue000\ufffd", "\U00010000\U0001f350\U0010fffd"})
        CHECK(clean_text(text) == text);
}

TEST_CASE("bytes that are no UTF-8 become question marks, one each", "[wrong][grid]") {
    CHECK(clean_text("na\xe9me.jpg") == "na?me.jpg");                 // Latin-1
    CHECK(clean_text("\x80\xbf") == "??");                            // nothing begins so
    CHECK(clean_text("a\xc3") == "a?");                               // cut short
    CHECK(clean_text("\xe2\x82x\xf0\x9f\x8d") == "??x???");
    CHECK(clean_text("\xc0\xaf\xe0\x9f\xbf\xf0\x8f\xbf\xbf") == "?????????"); // overlong
    CHECK(clean_text("\xed\xa0\x80\xed\xbf\xbf") == "??????");        // surrogates
    CHECK(clean_text("\xf4\x90\x80\x80\xf8\x88\x80\x80\x80\xff") == "??????????");
}

TEST_CASE("control characters and what is never a character become question marks", "[wrong][grid]") {
    using namespace std::string_literals;
    CHECK(clean_text("a\nb\tc\0d\x1b\x7f"s) == "a?b?c?d??");
    CHECK(clean_text("\xc2\x80\xc2\x85\xc2\x9f") == "???");
    CHECK(clean_text("\ufdd0\ufdef\ufffe\uffff\U0001fffe\U0010ffff") == "??????");
}

TEST_CASE("a long text is cut between characters", "[law][grid]") {
    CHECK(clean_text("abcdef", 4) == "abcd");
    CHECK(clean_text("ab\u20acd", 4) == "ab");
    CHECK(clean_text("ab\u20acd", 5) == "ab\u20ac");
    CHECK(clean_text("\u20ac", 0).empty());
}
