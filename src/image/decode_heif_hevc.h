#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "image/decode_heif_boxes.h"

/// What a still picture in HEVC (ITU-T H.265) makes its decoder hold, read from the stream's headers; not for
/// other layers.
namespace ridgetally::heif {

struct HevcPicture {
    /// Of the largest sequence parameter set, before cropping: what the decoder allocates.
    std::int64_t width_px = 0;
    std::int64_t height_px = 0;
    /// Pictures of that size in memory at once. A random access picture may name up to 16 others (7.4.8,
    /// A.4.2); a decoder makes up those that are not there. Only an IDR picture names none.
    int pictures = 1;
};

/// `configuration` is the content of "hvcC" (ISO/IEC 14496-15, 8.3.3.1.2); `data` are the item's units, a
/// length of four bytes before each, which is how libheif reads them whatever the configuration says. None
/// where the stream is damaged, holds no size, more than one picture, or a picture that needs others.
[[nodiscard]] std::optional<HevcPicture> read_hevc_picture(ByteSpan configuration,
                                                           const std::vector<ByteSpan>& data);

}  // namespace ridgetally::heif
