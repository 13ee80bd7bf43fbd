#include "fuzz_target.h"
#include "image/photo.h"

/// A photo's file: JPEG, PNG, HEIF, WebP or none of them, through the program's own path.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ridgetally;
    // Small, so that the fuzzer looks at many files and not at large ones.
    ReadPhotoOptions options;
    options.min_megapixels = 0.0;
    options.min_side_px = 1;
    options.max_megapixels = 0.0625;
    options.max_side_px = 4096;
    const auto photo = decode_photo({data, size}, "fuzz", options);
    if (!photo) {
        fuzz::require(photo.refusal().stage == "photo" && !photo.refusal().hint.empty());
        return 0;
    }
    fuzz::require(photo->grey.type() == CV_8UC1 && photo->colour.bgr.type() == CV_8UC3);
    fuzz::require(photo->grey.total() <= 62500 && !photo->grey.empty());
    return 0;
}
