/// A folder with masks and pictures to read plans in, thrown away at the end. The sheet of these plans is 380 × 280
/// mm.
///
///   masks/sky.png, masks/hills.png   upper half white; lower half, but for 40 mm at its right; 38 × 28
///   other/sky.png                    another file with the same stem
///   masks/tall.png                   28 × 38: another aspect     masks/black.png   no white at all
///   masks/cut.png                    broken off                  masks/words.png   no picture
///   masks/outside.png                a symbolic link out of the folder
///   reference.png                    38 × 28                     square.png        20 × 20
#pragma once
#include "grid/picture.h"
#include "plan/read_plan.h"

#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <unistd.h>

namespace tidemark {

class PlanFolder {
  public:
    PlanFolder() {
        static int made = 0;
        base_ = std::filesystem::temp_directory_path() /
                ("tidemark-plan-" + std::to_string(getpid()) + "-" + std::to_string(made++));
        std::filesystem::remove_all(base_);
        for (const char* sub : {"plan/masks", "plan/other"})
            std::filesystem::create_directories(base_ / sub);
        const auto upper = [](int, int y) { return y < 14; };
        const auto lower = [](int, int y) { return y >= 14; };
        mask("masks/sky.png", 38, 28, upper);
        mask("masks/hills.png", 38, 28, [](int x, int y) { return y >= 14 && x < 34; });
        mask("other/sky.png", 38, 28, lower);
        mask("masks/tall.png", 28, 38, upper);
        mask("masks/black.png", 38, 28, [](int, int) { return false; });
        picture("reference.png", 38, 28);
        picture("square.png", 20, 20);
        const std::string whole = bytes("masks/sky.png");
        write("masks/cut.png", whole.substr(0, whole.size() / 2));
        write("masks/words.png", "a letter about a picture");
        picture("../outside.png", 38, 28);
        std::filesystem::create_symlink("../../outside.png", path("masks/outside.png"));
    }
    ~PlanFolder() { std::filesystem::remove_all(base_); }
    PlanFolder(const PlanFolder&) = delete;
    PlanFolder& operator=(const PlanFolder&) = delete;

    std::filesystem::path path(const std::string& name) const { return base_ / "plan" / name; }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path(name), std::ios::binary) << text;
    }
    std::string bytes(const std::string& name) const {
        std::ostringstream text;
        text << std::ifstream(path(name), std::ios::binary).rdbuf();
        return text.str();
    }
    void mask(const std::string& name, int width, int height, const std::function<bool(int, int)>& inside) const {
        grid::GreyPicture grey{width, height, {}};
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x)
                grey.value.push_back(inside(x, y) ? 1.0f : 0.0f);
        save(name, grid::png_bytes(grey));
    }
    void picture(const std::string& name, int width, int height) const {
        save(name, grid::png_bytes(grid::Picture{width, height, std::vector<std::uint8_t>(3 * width * height, 128)}));
    }

    /// The plan read from `text`, written as plan.toml.
    plan::Plan read(const std::string& text) const {
        write("plan.toml", text);
        return plan::read_plan(path("plan.toml"), presets());
    }
    /// What read_plan says about it, without the folder's own name; empty when it reads.
    std::string said(const std::string& text, const std::string& name = "plan.toml") const {
        write(name, text);
        try {
            plan::read_plan(path(name), presets());
            return {};
        } catch (const grid::BadInput& bad) {
            std::string lines = bad.what();
            const std::string prefix = path("").string();
            for (std::size_t at; (at = lines.find(prefix)) != std::string::npos;)
                lines.erase(at, prefix.size());
            return lines;
        }
    }
    static const materials::Presets& presets() {
        static const auto read = materials::Presets::read(TIDEMARK_PRESETS_DIR);
        return read;
    }

  private:
    void save(const std::string& name, const std::vector<std::uint8_t>& png) const {
        write(name, std::string(png.begin(), png.end()));
    }
    std::filesystem::path base_;
};

} // namespace tidemark
