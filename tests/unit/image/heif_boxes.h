#pragma once

#include <optional>
#include <string>

#include "files_of_tests.h"

/// HEIF files put together box by box (ISO/IEC 14496-12, 23008-12), so that they can say what no encoder
/// writes.
namespace ridgetally::files {

/// One item; properties that are not told are left out.
struct HeifItem {
    int id = 1;
    std::string type = "hvc1";
    std::optional<cv::Size> declared = {};  ///< "ispe"
    Bytes configuration = {};               ///< "hvcC"
    std::string auxiliary = {};             ///< "auxC"
    Bytes data = {};
};

struct HeifReference {
    std::string type;
    int from = 0;
    std::vector<int> to;
};

struct HeifContent {
    int primary = 1;
    std::vector<HeifItem> items;
    std::vector<HeifReference> references = {};
};

[[nodiscard]] Bytes heif_file(const HeifContent& content);

/// The primary picture of an encoder's file, as item 1 with the size the file declares.
[[nodiscard]] HeifItem coded_picture(const Bytes& heic);

/// The item with another size in its sequence parameter set (ITU-T H.265, 7.3.2.2.1); its slices stay.
[[nodiscard]] HeifItem coded_as(const HeifItem& item, const cv::Size& size);

/// Numbers of a sequence parameter set (7.3.2.2.1) as they are written, in their order.
enum class SequenceNumber {
    luma_bits_above_8,
    chroma_bits_above_8,
    log2_least_coding_block_above_3,
    log2_coding_block_range,
    log2_least_transform_block_above_2,
    log2_transform_block_range,
    depth_between_pictures,
    depth_within_picture
};

/// The item with another number in its sequence parameter set.
[[nodiscard]] HeifItem coded_with(const HeifItem& item, SequenceNumber number, std::uint32_t value);

/// The data of a "grid" item (23008-12, 6.6.2.3.2).
[[nodiscard]] Bytes grid_data(int rows, int columns, const cv::Size& canvas);

}  // namespace ridgetally::files
