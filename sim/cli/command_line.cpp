#include "cli/command_line.h"

#include "grid/problem.h"

#include <charconv>
#include <fmt/format.h>
#include <vector>

namespace tidemark::cli {
namespace {

template <class Number> CLI::Validator reads_as(const std::string& kind, const std::string& allowed) {
    const auto check = [kind, allowed](const std::string& text) -> std::string {
        Number value{};
        const char* end = text.data() + text.size();
        const auto read = std::from_chars(text.data(), end, value);
        const bool too_large = read.ec == std::errc::result_out_of_range;
        if (!too_large && read.ec == std::errc{} && read.ptr == end)
            return {};
        return fmt::format("\"{}\" is {}; allowed: {}", text, too_large ? "out of range" : "no " + kind, allowed);
    };
    return CLI::Validator(check, "");
}

std::vector<std::string> commands_of(const CLI::App* app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app->get_subcommands({}))
        names.push_back(command->get_name());
    return names;
}

std::string unexpected(const CLI::App* command, const std::string& word) {
    if (word.rfind('-', 0) != 0)
        return fmt::format("\"{}\" is one word too many", word);
    std::vector<std::string> options;
    for (const CLI::Option* option : command->get_options())
        if (option->nonpositional())
            options.push_back(option->get_name());
    return fmt::format("unknown option \"{}\"{}", word, grid::did_you_mean(word, options));
}

} // namespace

CLI::Validator a_number(const std::string& allowed) { return reads_as<double>("number", allowed); }
CLI::Validator a_whole_number(const std::string& allowed) { return reads_as<int>("whole number", allowed); }
CLI::Validator not_empty(const std::string& allowed) {
    return CLI::Validator(
        [allowed](const std::string& text) { return text.empty() ? "is empty; allowed: " + allowed : ""; }, "");
}

std::string what_is_wrong(const CLI::App* app, const CLI::Error& error) {
    const std::vector<std::string> commands = commands_of(app), words = app->remaining(true);
    if (app->get_subcommands().empty()) {
        const std::string allowed = fmt::format("{}", fmt::join(commands, ", "));
        if (words.empty())
            return fmt::format("a command is missing; allowed: {}\n", allowed);
        if (words.front().rfind('-', 0) == 0)
            return unexpected(app, words.front()) + "; see tidemark --help\n";
        const std::string hint = grid::did_you_mean(words.front(), commands);
        return fmt::format("unknown command \"{}\"{}\n", words.front(),
                           hint.empty() ? "; allowed: " + allowed : hint);
    }
    const CLI::App* command = app->get_subcommands().front();
    std::string what = words.empty() ? error.what() : unexpected(command, words.front());
    if (what.find("; ") == std::string::npos)
        what += fmt::format("; see tidemark {} --help", command->get_name());
    return what + "\n";
}

} // namespace tidemark::cli
