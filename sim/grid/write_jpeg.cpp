#include <turbojpeg.h>

#include <memory>

#include "grid/picture.h"
#include "grid/problem.h"
#include "grid/within.h"

namespace tidemark::grid {

std::vector<std::uint8_t> jpeg_bytes(const Picture& picture, int quality) {
    within("quality of a JPEG", quality, {1, 100});
    within("width of a JPEG", picture.width, {1, 65535, "pixels"});
    within("height of a JPEG", picture.height, {1, 65535, "pixels"});
    const std::unique_ptr<void, decltype(&tjDestroy)> encoder(tjInitCompress(), &tjDestroy);
    if (!encoder) throw std::bad_alloc();
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    const int done = tjCompress2(encoder.get(), picture.rgb.data(), picture.width, 0, picture.height, TJPF_RGB, &bytes,
                                 &size, TJSAMP_420, quality, TJFLAG_ACCURATEDCT);
    const std::unique_ptr<unsigned char, decltype(&tjFree)> owned(bytes, &tjFree);
    if (done != 0) throw InternalError(std::string("a JPEG can't be written: ") + tjGetErrorStr2(encoder.get()));
    return {bytes, bytes + size};
}

} // namespace tidemark::grid
