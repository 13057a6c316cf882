#include <gif_lib.h>

#include <cmath>
#include <memory>

#include "grid/animation.h"
#include "grid/palette_detail.h"
#include "grid/problem.h"
#include "grid/within.h"

namespace tidemark::grid {

namespace {

using Bytes = std::vector<std::uint8_t>;

int append(GifFileType* gif, const GifByteType* bytes, int count) {
    auto* out = static_cast<Bytes*>(gif->UserData);
    out->insert(out->end(), bytes, bytes + count);
    return count;
}

void must(int done) { // only memory can fail: nothing is written to a disk here
    if (done != GIF_OK) throw std::bad_alloc();
}

struct FreeMap {
    void operator()(ColorMapObject* map) const { GifFreeMapObject(map); }
};
using Map = std::unique_ptr<ColorMapObject, FreeMap>;

/// A map has a power of two of colours; the one after the palette's own is the transparent one.
Map map_of(const Palette& palette) {
    int size = 2;
    while (size <= static_cast<int>(palette.colours().size())) size *= 2;
    Map map(GifMakeMapObject(size, nullptr));
    if (!map) throw std::bad_alloc();
    for (std::size_t k = 0; k < palette.colours().size(); ++k) {
        const Rgb& rgb = palette.colours()[k];
        map->Colors[k] = {rgb[0], rgb[1], rgb[2]};
    }
    return map;
}

class Gif {
  public:
    explicit Gif(Bytes& out) {
        int error = 0;
        file_ = EGifOpen(&out, append, &error);
        if (file_ == nullptr) throw std::bad_alloc();
        EGifSetGifVersion(file_, true);
    }
    ~Gif() {
        if (file_ != nullptr) EGifCloseFile(file_, nullptr);
    }
    Gif(const Gif&) = delete;
    Gif& operator=(const Gif&) = delete;

    void begin(int width, int height, const ColorMapObject& map) {
        must(EGifPutScreenDesc(file_, width, height, 8, 0, &map));
        const std::uint8_t for_ever[] = {1, 0, 0};
        must(EGifPutExtensionLeader(file_, APPLICATION_EXT_FUNC_CODE));
        must(EGifPutExtensionBlock(file_, 11, "NETSCAPE2.0")); // the block that players know as "play again"
        must(EGifPutExtensionBlock(file_, sizeof for_ever, for_ever));
        must(EGifPutExtensionTrailer(file_));
    }
    void picture(int width, int height, int hundredths, int transparent, Bytes& indices) {
        const GraphicsControlBlock control{DISPOSE_DO_NOT, false, hundredths, transparent};
        GifByteType block[4];
        must(EGifPutExtension(file_, GRAPHICS_EXT_FUNC_CODE, static_cast<int>(EGifGCBToExtension(&control, block)), block));
        must(EGifPutImageDesc(file_, 0, 0, width, height, false, nullptr));
        for (int y = 0; y < height; ++y) must(EGifPutLine(file_, indices.data() + static_cast<std::size_t>(y) * width, width));
    }
    void end() {
        GifFileType* file = file_;
        file_ = nullptr;
        must(EGifCloseFile(file, nullptr));
    }

  private:
    GifFileType* file_ = nullptr;
};

void check(const std::vector<Shown>& shown) {
    within("pictures of an animation", static_cast<double>(shown.size()), {1, 1e6});
    const Picture& first = shown.front().picture;
    for (const Shown& s : shown) {
        within("width of an animation's picture", s.picture.width, {1, 65535, "pixels"});
        within("height of an animation's picture", s.picture.height, {1, 65535, "pixels"});
        within("seconds that a picture stands", s.seconds, {0.02, 60, "s"});
        if (s.picture.width != first.width || s.picture.height != first.height)
            throw std::invalid_argument("an animation's pictures have different sizes");
    }
}

} // namespace

std::vector<std::uint8_t> gif_bytes(const std::vector<Shown>& shown) {
    check(shown);
    std::vector<const Picture*> pictures;
    for (const Shown& s : shown) pictures.push_back(&s.picture);
    const Palette palette(pictures, 255);
    const int transparent = static_cast<int>(palette.colours().size());
    const int width = shown.front().picture.width, height = shown.front().picture.height;
    Bytes out, seen(static_cast<std::size_t>(width) * height), changed(seen.size());
    Gif gif(out);
    const Map map = map_of(palette);
    gif.begin(width, height, *map);
    for (std::size_t n = 0; n < shown.size(); ++n) {
        for (std::size_t k = 0; k < seen.size(); ++k) {
            const std::uint8_t index = palette.index_of(&shown[n].picture.rgb[3 * k]);
            changed[k] = n > 0 && index == seen[k] ? static_cast<std::uint8_t>(transparent) : index;
            seen[k] = index;
        }
        gif.picture(width, height, static_cast<int>(std::lround(100 * shown[n].seconds)), transparent, changed);
    }
    gif.end();
    return out;
}

} // namespace tidemark::grid
