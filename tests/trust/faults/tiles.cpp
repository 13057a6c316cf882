/// tiles FOLDER: 200 masks of 300 × 220 pixels, m0.png ..., each white in a tile of its own of 20 × 10.
#include <zlib.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {

std::string number(unsigned long n) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(n >> shift);
    return bytes;
}

std::string chunk(const std::string& kind, const std::string& data) {
    const std::string body = kind + data;
    return number(data.size()) + body + number(crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size())));
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    constexpr int width = 300, height = 220, across = 20, down = 10;
    for (int k = 0; k < across * down; ++k) {
        std::vector<Bytef> rows, packed(200000);
        for (int y = 0; y < height; ++y) {
            rows.push_back(0);
            for (int x = 0; x < width; ++x) rows.push_back(x * across / width == k % across && y * down / height == k / across ? 255 : 0);
        }
        uLongf size = packed.size();
        if (compress(packed.data(), &size, rows.data(), rows.size()) != Z_OK) return 3;
        const std::string head = number(width) + number(height) + std::string("\x08\x00\x00\x00\x00", 5);
        std::ofstream(std::filesystem::path(argv[1]) / ("m" + std::to_string(k) + ".png"), std::ios::binary)
            << "\x89PNG\r\n\x1a\n" << chunk("IHDR", head) << chunk("IDAT", std::string(packed.begin(), packed.begin() + static_cast<long>(size))) << chunk("IEND", "");
    }
    return 0;
}
