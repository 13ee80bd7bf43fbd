#include "fuzz_target.h"
#include "image/exif.h"

/// An EXIF block. Its first byte is also the shape of the picture that it belongs to.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ridgetally;
    const auto facts = read_exif({data, size});
    const auto orientation = static_cast<int>(facts.orientation);
    fuzz::require(orientation >= 1 && orientation <= 8);
    const double width_px = size > 0 ? 1.0 + data[0] : 1.0;
    const auto focal_length = focal_length_of_whole_frame(facts, width_px, 100.0);
    fuzz::require(!focal_length || *focal_length > 0.0);
    return 0;
}
