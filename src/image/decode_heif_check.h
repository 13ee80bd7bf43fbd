#pragma once

#include <optional>

#include "image/decode_heif_boxes.h"
#include "image/photo.h"

/// What decoding the primary picture of a HEIF file would take; not for other layers.
namespace ridgetally::heif {

/// The refusal of a file whose primary picture must not be given to libheif, which allocates what the coded
/// stream asks for, whatever size the file declares, and follows references wherever they lead. Read are:
///
/// - a picture in HEVC (23008-12, annex B) whose stream is as large as its property "ispe" says, give or take
///   the blocks it is coded in, and holds one picture;
/// - a grid of such tiles of one size (6.6.2.3.1) that cover the picture and lie within it;
/// - the same again as the transparency of one of these (6.6.2.1.1).
///
/// Together they may take 2.5 times the pixels of the largest picture that `options` allow. Codes:
/// damaged-photo, unsupported-photo (another codec, overlays, copies), too-large.
[[nodiscard]] std::optional<Refusal> refusal_before_decoding(const Structure& structure,
                                                             std::size_t file_bytes,
                                                             const ReadPhotoOptions& options);

}  // namespace ridgetally::heif
