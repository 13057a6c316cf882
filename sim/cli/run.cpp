#include "cli/run.h"

#include "cli/command_line.h"
#include "cli/commands.h"
#include "cli/masses_options.h"
#include "grid/problem.h"
#include "grid/steady.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <omp.h>
#include <stdexcept>
#include <system_error>

namespace tidemark::cli {
namespace {

constexpr int ok = 0, wrong_input = 2, failed = 3, stopped = 130;

} // namespace

int guarded(const std::function<bool()>& command) {
    try {
        grid::have_threads(omp_get_max_threads());
        const bool done = command();
        grid::check_said();
        return done ? ok : stopped;
    } catch (const grid::BadInput& e) {
        for (const grid::Problem& p : e.problems())
            std::fprintf(stderr, "%s\n", p.line().c_str());
        return wrong_input;
    } catch (const grid::IoError& e) {
        std::fprintf(stderr, "%s\n", e.what());
    } catch (const grid::InternalError& e) {
        std::fprintf(stderr, "internal error: %s; nothing was written\n", e.what());
    } catch (const std::invalid_argument& e) { // grid/within.h: what the readers should have refused
        std::fprintf(stderr, "internal error: %s; nothing was written\n", e.what());
    } catch (const std::bad_alloc&) {
        std::fprintf(stderr, "out of memory; nothing was written\n");
    } catch (const std::filesystem::filesystem_error& e) {
        std::fprintf(stderr, "%s: %s\n", e.path1().c_str(), e.code().message().c_str());
    } catch (const std::exception& e) {
        if (std::ferror(stdout) != 0) // fmt::print has thrown it
            std::fprintf(stderr, "%s\n", grid::not_said);
        else
            std::fprintf(stderr, "internal error: %s\n", e.what());
    }
    return failed;
}

int run(int argc, char** argv) {
    CLI::App app{
        "tidemark rehearses a watercolour: a plan goes in, the dried sheet with its edges and minutes comes out.",
        "tidemark"};
    app.set_version_flag("--version", TIDEMARK_VERSION);
    app.require_subcommand(1);
    app.failure_message(what_is_wrong);
    app.get_formatter()->label("SUBCOMMAND", "COMMAND");
    const auto command = [&app](const char* name, const char* what) {
        return app.add_subcommand(name, what)->group("Commands");
    };
    const auto outside_flag = [](CLI::App* of, bool& flag) {
        of->add_flag(plan::outside_option, flag, "masks and pictures may lie outside the plan's folder");
    };
    const std::string a_file = "a file's name", a_folder = "a folder's name",
                      a_time = "minutes:seconds, such as 7:40";

    RehearseOptions rehearse;
    CLI::App* r = command("rehearse", "paint a plan on a simulated sheet and write what comes of it");
    r->add_option("PLAN", rehearse.plan, "the plan file (TOML)")->required()->check(not_empty(a_file));
    r->add_option("--out", rehearse.out, "folder for the results")->required()->check(not_empty(a_folder));
    r->add_option("--threads", rehearse.threads, "how many threads (default: one a core; the result is the same)")
        ->check(a_whole_number("1 to 256, or 0: one a core"));
    r->add_option("--cell", rehearse.cell_mm, "cell of the simulation, mm: 0.25 fine, 0.5, 1 draft")
        ->capture_default_str()
        ->check(a_number("0.1 to 4"));
    r->add_option("--until", rehearse.until, "stop at this moment of the painting, m:ss (default: when it is dry)")
        ->check(not_empty(a_time));
    r->add_option("--frames", rehearse.frames, "a picture every so often, m:ss, into frames/")
        ->check(not_empty(a_time));
    r->add_option("--keep", rehearse.keep, "keep the whole state every so often, m:ss, into kept/, for look")
        ->check(not_empty(a_time));
    r->add_flag("--advise", rehearse.advise, "try what would mend the edges that are not as wanted, and when each wash can begin");
    outside_flag(r, rehearse.outside);
    r->add_flag("--quiet", rehearse.quiet, "no progress and no summary");

    LookOptions look;
    CLI::App* l = command("look", "show the sheet at any moment of a rehearsal that was run with --keep");
    l->add_option("FOLDER", look.folder, "the folder of the rehearsal")->required()->check(not_empty(a_folder));
    l->add_option("--at", look.at, "the moment, m:ss")->required()->check(not_empty(a_time));
    l->add_option("--out", look.out, "the picture to write (PNG)")->required()->check(not_empty(a_file));
    l->add_flag("--dried", look.dried, "as it would be if all water left at once (default: as it looks, wet)");
    l->add_option("--plan", look.plan, "the plan file, if it was moved")->check(not_empty(a_file));
    outside_flag(l, look.outside);
    l->add_option("--threads", look.threads, "how many threads (default: one a core; the result is the same)")
        ->check(a_whole_number("1 to 256, or 0: one a core"));

    AskOptions ask;
    CLI::App* a = command("ask", "what if: variants of a plan side by side, painted only from where they part");
    a->add_option("PLAN", ask.plan, "the plan file (TOML)")->required()->check(not_empty(a_file));
    a->add_option("--out", ask.out, "folder for what comes of it")->required()->check(not_empty(a_folder));
    a->add_option("--vary", ask.vary, "STEP.KEY=FROM..TO/STEP, or STEP.KEY=A,B,C; once for each")
        ->allow_extra_args(false)
        ->check(not_empty("what to vary, such as hills.wait=0:00..12:00/2:00"));
    a->add_option("--room", ask.room, "rooms' ids with commas between")->check(not_empty("rooms' ids"));
    a->add_option("--paper", ask.paper, "papers' ids with commas between")->check(not_empty("papers' ids"));
    CLI::Option* uncertain =
        a->add_option("--uncertain", ask.uncertain, "on so many days: other air, water and pace; 8 when no number is given")
            ->expected(0, 1)
            ->check(a_whole_number("1 to 64 days"));
    a->add_flag("--whole", ask.whole, "to the end of the painting, not only until what varies is dry");
    a->add_option("--cell", ask.cell_mm, "cell of the simulation, mm: 0.25 fine, 0.5, 1 draft")
        ->capture_default_str()
        ->check(a_number("0.1 to 4"));
    a->add_option("--threads", ask.threads, "how many threads (default: one a core; the result is the same)")
        ->check(a_whole_number("1 to 256, or 0: one a core"));
    outside_flag(a, ask.outside);
    a->add_flag("--quiet", ask.quiet, "no progress and no summary");

    CheckOptions check;
    CLI::App* c = command("check", "read a plan and everything it names; simulate nothing");
    c->add_option("PLAN", check.plan, "the plan file (TOML)")->required()->check(not_empty(a_file));
    outside_flag(c, check.outside);

    DraftOptions draft;
    CLI::App* d = command("draft", "from a photograph, a first plan that runs at once");
    d->add_option("PICTURE", draft.picture, "a JPEG or PNG picture")->required()->check(not_empty(a_file));
    d->add_option("--out", draft.out, "folder for the plan, its masks and the reference")
        ->required()
        ->check(not_empty(a_folder));
    d->add_flag("--replace", draft.replace, "write over the plan, masks and reference that are in the folder");
    add_masses_options(*d, draft.masses);

    SwatchesOptions swatches;
    CLI::App* s = command("swatches", "a chart of every pigment, thin to thick, wet and dry");
    s->add_option("--out", swatches.out, "the picture to write (PNG)")->required()->check(not_empty(a_file));
    s->add_option("--csv", swatches.csv, "the colours as a table, too")->check(not_empty(a_file));
    s->add_option("--paper", swatches.paper, "a paper's id")->capture_default_str()->check(not_empty("a paper's id"));
    s->add_option("--light", swatches.light, "D65 or D50, which is warmer")
        ->capture_default_str()
        ->check(not_empty("D65, D50"));

    TransferOptions transfer;
    CLI::App* t = command("transfer", "what is traced onto the paper: a picture's masses in outline, with squares");
    t->add_option("PICTURE", transfer.picture, "a JPEG or PNG picture")->required()->check(not_empty(a_file));
    t->add_option("--out", transfer.out, "the drawing to write (.png, .pdf or .svg)")
        ->required()
        ->check(not_empty(a_file));
    t->add_option("--grid", transfer.grid, "side of a square, mm (default: a quarter of the longer side)")
        ->check(not_empty("the side of a square in mm"));
    t->add_option("--eye-line", transfer.eye_line, "the horizon, from the top of the sheet: 118 (mm) or 42%")
        ->check(not_empty("mm from the top, or a percentage of the height"));
    t->add_option("--head", transfer.heads, "top of a standing person's head, X,Y in mm; once for each")
        ->allow_extra_args(false)
        ->check(not_empty("x,y in mm"));
    t->add_option("--standing", transfer.standing_m, "height of your eye over the ground, m")
        ->capture_default_str()
        ->check(a_number("0.3 to 3 m"));
    add_masses_options(*t, transfer.masses, true);

    SquintOptions squint;
    CLI::App* q = command("squint", "a picture's few value masses, with masks, and how they hang together");
    q->add_option("PICTURE", squint.picture, "a JPEG or PNG picture")->required()->check(not_empty(a_file));
    q->add_option("--out", squint.out, "folder for what comes of it")->required()->check(not_empty(a_folder));
    q->add_flag("--replace", squint.replace, "write over masks in the folder that you have changed");
    add_masses_options(*q, squint.masses);
    q->add_option("--paper", squint.paper, "paper for how long a wet edge joins, by its id")->capture_default_str();
    q->add_option("--room", squint.room, "room for the same, by its id")->capture_default_str();
    q->add_option("--pace", squint.pace_cm2_s, "of the connected wash, cm2 a second")
        ->capture_default_str()
        ->check(a_number("0.5 to 100"));
    q->add_option("--start", squint.start, "where the connected wash begins, X,Y in mm (default: a good end)")
        ->check(not_empty("x,y in mm"));

    LessonOptions lesson;
    CLI::App* n = command("lesson", "one effect of water on paper, rehearsed: a page of pictures, an animation, what to watch");
    n->add_option("NAME", lesson.name, "which lesson; --list names them")->check(not_empty("a lesson's name"));
    n->add_option("--out", lesson.out, "folder for the pictures and the page")->check(not_empty(a_folder));
    n->add_flag("--list", lesson.list, "the lessons there are, and nothing else");
    n->add_option("--cell", lesson.cell_mm, "cell of the simulation, mm (default: as the lesson says)")
        ->check(a_number("0.1 to 4"));
    n->add_option("--threads", lesson.threads, "how many threads (default: one a core; the result is the same)")
        ->check(a_whole_number("1 to 256, or 0: one a core"));
    n->add_flag("--quiet", lesson.quiet, "no progress and no summary");

    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        const int code = app.exit(e); // prints help and version, too
        return code == 0 ? guarded([] { return true; }) : wrong_input;
    }
    if (*a) {
        ask.uncertain_given = uncertain->count() > 0;
        const auto& number = uncertain->results();
        if (number.empty() || number.front().empty() || number.front() == "{}") ask.uncertain = AskOptions{}.uncertain;
        return guarded([&] { return ask_plan(ask); });
    }
    if (*q)
        return guarded([&] { return squint_at(squint); });
    if (*r)
        return guarded([&] { return rehearse_plan(rehearse); });
    if (*l)
        return guarded([&] { return look_at_moment(look); });
    if (*c)
        return guarded([&] { return check_plan(check); });
    if (*d)
        return guarded([&] { return draft_picture(draft); });
    if (*t)
        return guarded([&] { return draw_transfer(transfer); });
    if (*n)
        return guarded([&] { return play_lesson(lesson); });
    return guarded([&] { return draw_swatches(swatches); });
}

} // namespace tidemark::cli
