#include "grid/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <string_view>

#include "grid/clean_text.h"
#include "grid/decode_detail.h"
#include "grid/files.h"
#include "grid/png_chunks_detail.h"
#include "grid/problem.h"

namespace tidemark::grid {

namespace {

struct Loaded {
    std::string shown, text;
    bool jpeg = false;
    Bytes bytes() const { return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()}; }
};

Loaded load(const std::filesystem::path& path, const std::string& shown_as, const PictureLimits& limits) {
    Loaded file{shown_as.empty() ? path.string() : shown_as, {}};
    try {
        const std::int64_t most = std::min(limits.max_file_bytes, limits.max_memory_bytes);
        file.text = read_text(path, std::min<std::int64_t>(most, INT32_MAX)); // decoders count in int
    } catch (const BadInput& bad) {
        const Problem& problem = bad.problems().front();
        throw BadInput(file.shown, problem.what, problem.allowed);
    }
    const Bytes bytes = file.bytes();
    if (bytes.empty()) throw BadInput(file.shown, "the file is empty", "a PNG or JPEG picture");
    file.jpeg = bytes.size() >= 2 && bytes[0] == 0xFF && bytes[1] == 0xD8;
    const std::size_t head = std::min(bytes.size(), sizeof png_signature);
    const bool png = std::equal(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(head), png_signature);
    if (!file.jpeg && !png) throw BadInput(file.shown, "is neither PNG nor JPEG", "a PNG or JPEG picture");
    if (png && head < sizeof png_signature) throw BadInput(file.shown, cut_short);
    return file;
}

constexpr const char* memory_variable = "TIDEMARK_PICTURE_MIB";

} // namespace

std::int64_t picture_memory_bytes() {
    constexpr std::int64_t usual_mib = 1024, least_mib = 16, most_mib = 65536;
    const char* set = std::getenv(memory_variable);
    const std::string_view text = set ? set : "";
    if (text.empty()) return usual_mib << 20;
    std::int64_t mib = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), mib);
    if (error != std::errc() || end != text.data() + text.size() || mib < least_mib || mib > most_mib)
        throw BadInput(memory_variable, fmt::format("is \"{}\"", clean_text(text)), fmt::format("{} to {}, in MiB", least_mib, most_mib));
    return mib << 20;
}

void refuse_sides(const Claim& claim, const std::string& shown) {
    if (claim.width < 1 || claim.height < 1) throw BadInput(shown, "the picture has no pixels");
    if (std::max(claim.width, claim.height) > longest_side)
        throw BadInput(shown, fmt::format("the picture is {} x {} pixels", claim.width, claim.height),
                       fmt::format("at most {} each way", longest_side));
}

void refuse_beyond(const PictureLimits& limits, const Claim& claim, const std::string& shown) {
    const std::string size = fmt::format("the picture is {} x {} pixels", claim.width, claim.height);
    if (claim.pixels > limits.max_pixels)
        throw BadInput(shown, size, fmt::format("at most {} pixels in all", limits.max_pixels));
    if (claim.memory_bytes > limits.max_memory_bytes)
        throw BadInput(shown, fmt::format("{}, which take {} bytes to read", size, claim.memory_bytes),
                       fmt::format("at most {} bytes{}", limits.max_memory_bytes,
                                   limits.max_memory_bytes == picture_memory_bytes() ? fmt::format(" ({})", memory_variable) : ""));
}

Photograph read_photograph(const std::filesystem::path& path, const std::string& shown_as,
                           const PictureLimits& limits, const ScaleNeeded& scale_needed) {
    const Loaded file = load(path, shown_as, limits);
    return file.jpeg ? decode_jpeg(file.bytes(), file.shown, limits, scale_needed, Profiles::applied)
                     : decode_png(file.bytes(), file.shown, limits);
}

Picture read_picture(const std::filesystem::path& path, const std::string& shown_as, const PictureLimits& limits) {
    return read_photograph(path, shown_as, limits).picture;
}

GreyPicture read_grey(const std::filesystem::path& path, const std::string& shown_as, const PictureLimits& limits) {
    const Loaded file = load(path, shown_as, limits);
    if (!file.jpeg) return decode_png_grey(file.bytes(), file.shown, limits);
    const Picture colour = decode_jpeg(file.bytes(), file.shown, limits, {}, Profiles::ignored).picture;
    GreyPicture grey{colour.width, colour.height, {}};
    grey.value.resize(colour.rgb.size() / 3);
    for (std::size_t k = 0; k < grey.value.size(); ++k) {
        const std::uint8_t* c = colour.rgb.data() + 3 * k;
        const bool neutral = c[0] == c[1] && c[1] == c[2];
        grey.value[k] = (neutral ? c[0] : grey_of(c[0], c[1], c[2])) / 255.0f;
    }
    return grey;
}

} // namespace tidemark::grid
