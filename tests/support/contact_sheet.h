/// Dried sheets side by side with a caption under each, in one picture below TIDEMARK_BUILD_DIR/contact-sheets: what a
/// behaviour looks like, for eyes.
///
///     ContactSheet sheet("bloom", 4);                 // four to a row
///     sheet.add(run.sheet(), {"moist, 6 min", "rim 4.1 L*"});
///     sheet.write();                                  // bloom.png
#pragma once
#include "grid/files.h"
#include "report/enlarge.h"
#include "report/lettering_detail.h"
#include "sheet/look.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::scene {

class ContactSheet {
  public:
    ContactSheet(std::string name, int columns, double pixels_per_mm = 5)
        : name_(std::move(name)), columns_(columns), pixels_per_mm_(pixels_per_mm) {}

    void add(const sheet::SheetState& s, std::vector<std::string> captions, sheet::LookAs as = sheet::LookAs::dried) {
        const grid::Picture cells = sheet::look(s, as).picture;
        const int factor = std::max(1, static_cast<int>(pixels_per_mm_ * s.geometry.cell_m * 1e3 + 0.5));
        pieces_.push_back({report::enlarged(cells, std::min(factor, 16)), std::move(captions)});
    }

    /// Returns the file.
    std::filesystem::path write() const {
        int width = 0, height = 0, lines = 0;
        for (const Piece& p : pieces_) {
            width = std::max(width, p.picture.width), height = std::max(height, p.picture.height);
            lines = std::max(lines, static_cast<int>(p.captions.size()));
            for (const std::string& c : p.captions) width = std::max(width, report::text_width(c, 1));
        }
        const int text = lines * line_pitch, rows = (static_cast<int>(pieces_.size()) + columns_ - 1) / columns_;
        grid::Picture all;
        all.width = columns_ * (width + gap) + gap, all.height = rows * (height + text + gap) + gap;
        all.rgb.assign(static_cast<std::size_t>(all.width) * all.height * 3, 168);
        for (std::size_t n = 0; n < pieces_.size(); ++n) {
            const int x0 = gap + static_cast<int>(n) % columns_ * (width + gap);
            const int y0 = gap + static_cast<int>(n) / columns_ * (height + text + gap);
            const Piece& p = pieces_[n];
            for (int y = 0; y < p.picture.height; ++y)
                std::copy_n(p.picture.at(0, y), 3 * p.picture.width, all.at(x0, y0 + y));
            for (std::size_t k = 0; k < p.captions.size(); ++k)
                report::draw_text(all, x0, y0 + p.picture.height + 3 + static_cast<int>(k) * line_pitch, p.captions[k], 1, 16);
        }
        const std::filesystem::path folder = std::filesystem::path(TIDEMARK_BUILD_DIR) / "contact-sheets";
        std::filesystem::create_directories(folder);
        const auto bytes = grid::png_bytes(all);
        const auto file = folder / (name_ + ".png"), unfinished = folder / (name_ + ".part");
        std::ofstream(unfinished, std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
        std::filesystem::rename(unfinished, file);
        return file;
    }

  private:
    static constexpr int gap = 8, line_pitch = 11;
    struct Piece {
        grid::Picture picture;
        std::vector<std::string> captions;
    };
    std::string name_;
    int columns_;
    double pixels_per_mm_;
    std::vector<Piece> pieces_;
};

} // namespace tidemark::scene
