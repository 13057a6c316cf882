/// What a painter typed on the command line, and one line for what is wrong with it.
#pragma once
#include <CLI/CLI.hpp>
#include <string>

namespace tidemark::cli {

/// Checks of an option's text before it is read: empty when fine, else what is wrong and what is allowed.
CLI::Validator a_number(const std::string& allowed);
CLI::Validator a_whole_number(const std::string& allowed);
CLI::Validator not_empty(const std::string& allowed);

/// For CLI::App::failure_message: `unknown command "paint"; allowed: rehearse, look, ask, check, draft, swatches, transfer`.
std::string what_is_wrong(const CLI::App*, const CLI::Error&);

} // namespace tidemark::cli
