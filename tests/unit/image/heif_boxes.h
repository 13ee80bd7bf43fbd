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

/// The data of a "grid" item (23008-12, 6.6.2.3.2).
[[nodiscard]] Bytes grid_data(int rows, int columns, const cv::Size& canvas);

}  // namespace ridgetally::files
