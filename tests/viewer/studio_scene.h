/// A plan's folder for tests of the viewer's working half: a small sheet, two washes, a mask, a reference, comments and
/// spacing that no program would make.
#pragma once
#include "grid/files.h"
#include "grid/picture.h"
#include "grid/problem.h"
#include "materials/presets.h"
#include "plan/read_plan.h"
#include "support/temporary_folder.h"
#include "viewer/studio/run.h"

#include <chrono>
#include <memory>
#include <string>
#include <thread>

namespace tidemark::tests {

inline const char* small_plan_text() {
    return R"(# Evening, on a scrap.   Don't lose this line.
tidemark = 1

[sheet]
size_mm   = [60, 40]     # a scrap
paper = "cold-pressed-185"
room = "temperate-studio"

[reference]
picture = "reference.png"

[mix.blue]
PB29 = 2        # thin
[mix."grey one"]
PBk9 = 3

[area.hills]
mask = "masks/hills.png"

# first the sky
[[step]]
name = "sky"
do = "wash"
at = "0:10"    # once the board lies
mix = "blue"
film_um=80
pace_cm2_s = 10

[[step]]
name = "hills"   # into it
do = "wash"
after = "sky"
wait = "4:00"  # it may be later
area = "hills"
mix = "grey one"
film_um = 60
pace_cm2_s = 10

[[step]]
name = "drops"
do = "charge"
when = { area = "hills", is = "damp", longest = "30:00" }
area = "hills"
mix = "blue"
drops = 3

[[step]]
name = "dry it"
do = "dry"
until = "dry"
longest = "15:00"
warm_air = true

[[want]]
between = ["hills", "sky"]
edge = "soft"
)";
}

struct SmallPlan {
    TemporaryFolder folder;
    materials::Presets presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    std::filesystem::path file;

    explicit SmallPlan(const std::string& text = small_plan_text()) {
        std::filesystem::create_directories(folder.path() / "masks");
        grid::GreyPicture mask{120, 80, std::vector<float>(120 * 80)};
        grid::Picture seen{120, 80, std::vector<std::uint8_t>(3 * 120 * 80, 220)};
        for (int y = 40; y < 80; ++y)
            for (int x = 0; x < 120; ++x) {
                mask.value[static_cast<std::size_t>(y) * 120 + x] = 1;
                for (int c = 0; c < 3; ++c) seen.at(x, y)[c] = 90;
            }
        folder.put("masks/hills.png", grid::png_bytes(mask));
        folder.put("reference.png", grid::png_bytes(seen));
        file = folder.put("plan.toml", text);
    }
    std::shared_ptr<const plan::Plan> plan() const { return std::make_shared<const plan::Plan>(plan::read_plan(file, presets)); }
    std::shared_ptr<viewer::Run> run(double cell_m = 2e-3) const {
        auto run = viewer::Run::begin({.plan = plan(), .cell_m = cell_m, .threads = 1});
        run->wait();
        return run;
    }
};

/// Waits for what another thread does; false after a minute.
template <class F> bool becomes(F&& true_of_it) {
    for (int k = 0; k < 6000; ++k) {
        if (true_of_it()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    return false;
}

} // namespace tidemark::tests
