/// A GIF as a player shows it, picture by picture, decoded by giflib from bytes.
#pragma once
#include "grid/picture.h"

#include <gif_lib.h>

#include <algorithm>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace tidemark::tests {

struct PlayedGif {
    std::vector<grid::Picture> pictures; ///< whole ones, what is transparent filled from those before
    std::vector<int> hundredths;
    std::size_t transparent_pixels = 0; ///< in all
};

template <class Bytes> PlayedGif play_gif(const Bytes& bytes) {
    struct Input {
        std::span<const std::uint8_t> left;
    } input{{reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()}};
    const auto read = [](GifFileType* gif, GifByteType* to, int wanted) {
        auto& left = static_cast<Input*>(gif->UserData)->left;
        const std::size_t n = std::min(left.size(), static_cast<std::size_t>(wanted));
        std::copy_n(left.begin(), n, to);
        left = left.subspan(n);
        return static_cast<int>(n);
    };
    int error = 0;
    GifFileType* gif = DGifOpen(&input, read, &error);
    if (gif == nullptr || DGifSlurp(gif) != GIF_OK) throw std::runtime_error("no GIF");
    PlayedGif played;
    grid::Picture screen{gif->SWidth, gif->SHeight, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(gif->SWidth) * gif->SHeight)};
    for (int k = 0; k < gif->ImageCount; ++k) {
        GraphicsControlBlock control{};
        if (DGifSavedExtensionToGCB(gif, k, &control) != GIF_OK) throw std::runtime_error("a picture without its time");
        const SavedImage& image = gif->SavedImages[k];
        for (int y = 0; y < image.ImageDesc.Height; ++y)
            for (int x = 0; x < image.ImageDesc.Width; ++x) {
                const int index = image.RasterBits[y * image.ImageDesc.Width + x];
                if (index == control.TransparentColor) {
                    ++played.transparent_pixels;
                    continue;
                }
                const GifColorType c = gif->SColorMap->Colors[index];
                std::uint8_t* at = screen.at(image.ImageDesc.Left + x, image.ImageDesc.Top + y);
                at[0] = c.Red, at[1] = c.Green, at[2] = c.Blue;
            }
        played.pictures.push_back(screen), played.hundredths.push_back(control.DelayTime);
    }
    DGifCloseFile(gif, &error);
    return played;
}

} // namespace tidemark::tests
