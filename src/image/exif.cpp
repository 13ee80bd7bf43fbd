#include "image/exif.h"

#include <libexif/exif-data.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <vector>

namespace ridgetally {
namespace {

constexpr std::array<std::uint8_t, 6> exif_header = {'E', 'x', 'i', 'f', 0, 0};

/// A non-negative whole number of one directory; none where absent or of another kind.
std::optional<std::uint32_t> number(ExifData& data, ExifIfd directory, ExifTag tag) {
    const ExifEntry* entry = exif_content_get_entry(data.ifd[directory], tag);
    if (entry == nullptr || entry->data == nullptr || entry->components < 1) return std::nullopt;
    const ExifByteOrder order = exif_data_get_byte_order(&data);
    if (entry->format == EXIF_FORMAT_SHORT && entry->size >= 2) return exif_get_short(entry->data, order);
    if (entry->format == EXIF_FORMAT_LONG && entry->size >= 4) return exif_get_long(entry->data, order);
    return std::nullopt;
}

std::optional<double> positive(std::optional<std::uint32_t> value) {
    if (!value || *value == 0) return std::nullopt;
    return static_cast<double>(*value);
}

}  // namespace

ExifFacts read_exif(std::span<const std::uint8_t> block) {
    ExifFacts facts;
    std::vector<std::uint8_t> whole;
    if (!std::equal(exif_header.begin(), exif_header.end(), block.begin(),
                    block.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(6, block.size()))))
        whole.assign(exif_header.begin(), exif_header.end());
    whole.insert(whole.end(), block.begin(), block.end());
    if (whole.size() > std::numeric_limits<unsigned int>::max()) return facts;

    const std::unique_ptr<ExifData, void (*)(ExifData*)> data(exif_data_new(), exif_data_unref);
    if (!data) return facts;
    // Entries are read as they are; correcting them to the specification is not ours.
    exif_data_unset_option(data.get(), EXIF_DATA_OPTION_FOLLOW_SPECIFICATION);
    exif_data_load_data(data.get(), whole.data(), static_cast<unsigned int>(whole.size()));

    const auto orientation = number(*data, EXIF_IFD_0, EXIF_TAG_ORIENTATION);
    if (orientation && *orientation >= 1 && *orientation <= 8)
        facts.orientation = static_cast<Orientation>(*orientation);
    facts.focal_length_35mm = positive(number(*data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM));
    facts.width_px = positive(number(*data, EXIF_IFD_EXIF, EXIF_TAG_PIXEL_X_DIMENSION));
    facts.height_px = positive(number(*data, EXIF_IFD_EXIF, EXIF_TAG_PIXEL_Y_DIMENSION));
    return facts;
}

std::optional<double> focal_length_of_whole_frame(const ExifFacts& facts, double width_px, double height_px) {
    if (!facts.width_px || !facts.height_px) return facts.focal_length_35mm;
    // Some programs turn the picture and leave the two numbers as they were: only the ratio of the longer
    // side to the shorter counts.
    const auto ratio = [](double a, double b) { return std::max(a, b) / std::min(a, b); };
    const double change = ratio(*facts.width_px, *facts.height_px) / ratio(width_px, height_px);
    return std::abs(change - 1.0) > 0.01 ? std::nullopt : facts.focal_length_35mm;
}

}  // namespace ridgetally
