/// What the world outside may do to a program without its dying of it.
///
///   int main() { grid::stand_firm(); ...; grid::check_said(); }
///
/// stand_firm(), first thing in main(): a pipe that nobody reads and a file that may not grow become errors of write(),
/// not signals that end the program. A standard stream that the caller has closed is held, so that no output file gets its
/// number and what was meant for the terminal. Memory that runs out where no exception can be caught, inside a loop that
/// threads share, ends the program with a line and exit code 3; so does the OpenMP runtime, which would end it with 1.
/// A program that ends with 1 of its own says so with mean_one().
///
/// have_threads(n): makes the OpenMP threads, up to n, as long as there is memory for them, and sets their number. The
/// runtime by itself would end the program when it gets one thread too few; results are the same for any number.
#pragma once

namespace tidemark::grid {

void stand_firm();
void mean_one();

/// What was printed has arrived. Errors: IoError with the line below.
void check_said();
inline constexpr const char* not_said = "standard output: not all that there is to say could be written";

int have_threads(int wanted); ///< how many it has

} // namespace tidemark::grid
