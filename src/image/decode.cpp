#include "image/decode.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "image/colour_overview.h"
#include "image/grey.h"

namespace ridgetally {
namespace {

bool has_at(std::span<const std::uint8_t> bytes, std::size_t offset, std::string_view text) {
    return bytes.size() >= offset + text.size() &&
           std::equal(text.begin(), text.end(), bytes.begin() + static_cast<std::ptrdiff_t>(offset),
                      [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
}

/// Major brands of still pictures; "mif1" and "msf1" are HEIF's structural brands (23008-12, 10.2).
bool is_heif(std::span<const std::uint8_t> bytes) {
    constexpr std::array<std::string_view, 9> brands = {"heic", "heix", "heim", "heis", "hevc",
                                                        "hevx", "mif1", "msf1", "avif"};
    return has_at(bytes, 4, "ftyp") && std::any_of(brands.begin(), brands.end(), [&](std::string_view brand) {
               return has_at(bytes, 8, brand);
           });
}

}  // namespace

PhotoFormat format_of(std::span<const std::uint8_t> bytes) {
    using namespace std::string_view_literals;
    if (has_at(bytes, 0, "\xFF\xD8\xFF"sv)) return PhotoFormat::jpeg;
    if (has_at(bytes, 0, "\x89PNG\r\n\x1A\n"sv)) return PhotoFormat::png;
    if (has_at(bytes, 0, "RIFF") && has_at(bytes, 8, "WEBP")) return PhotoFormat::webp;
    if (is_heif(bytes)) return PhotoFormat::heif;
    return PhotoFormat::unknown;
}

Refusal photo_refusal(std::string code, std::string message, std::string hint) {
    return {"photo", std::move(code), std::move(message), std::move(hint)};
}

Refusal damaged_photo(const std::string& detail) {
    return photo_refusal("damaged-photo", "the file is damaged or cut off (" + detail + ")",
                         "copy the photo again from where it was taken");
}

Refusal unsupported_photo(const std::string& detail) {
    return photo_refusal("unsupported-photo", "this kind of picture is not read (" + detail + ")",
                         "save the photo as an ordinary JPEG");
}

std::optional<Refusal> size_refusal(std::int64_t width_px, std::int64_t height_px,
                                    const ReadPhotoOptions& options) {
    const double megapixels = static_cast<double>(width_px) * static_cast<double>(height_px) / 1e6;
    const std::string size = std::to_string(width_px) + " x " + std::to_string(height_px) + " pixels";
    if (width_px <= 0 || height_px <= 0) return damaged_photo(size);
    if (megapixels > options.max_megapixels || std::max(width_px, height_px) > options.max_side_px)
        return photo_refusal("too-large", "the picture is too large: " + size,
                             "save it at up to 50 megapixels");
    if (megapixels < options.min_megapixels || std::min(width_px, height_px) < options.min_side_px)
        return photo_refusal("too-small", "the picture is too small to measure: " + size,
                             "use the photo at full size, not a preview or a message's copy");
    return std::nullopt;
}

UprightPicture picture_from(const cv::Mat& bgr, std::optional<double> focal_length_35mm) {
    return {grey_of(bgr), colour_overview(bgr), focal_length_35mm};
}

cv::Mat on_white(const cv::Mat& bgra, Alpha alpha) {
    CV_Assert(bgra.type() == CV_8UC4);
    cv::Mat bgr(bgra.size(), CV_8UC3);
    for (int y = 0; y < bgra.rows; ++y) {
        const auto* in = bgra.ptr<cv::Vec4b>(y);
        auto* out = bgr.ptr<cv::Vec3b>(y);
        for (int x = 0; x < bgra.cols; ++x) {
            const int cover = in[x][3];
            for (int c = 0; c < 3; ++c) {
                const int colour = alpha == Alpha::straight ? (in[x][c] * cover + 127) / 255 : in[x][c];
                out[x][c] = static_cast<std::uint8_t>(std::min(colour + 255 - cover, 255));
            }
        }
    }
    return bgr;
}

}  // namespace ridgetally
