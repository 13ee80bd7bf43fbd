#include <libheif/heif.h>

#include <algorithm>
#include <memory>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "image/decode.h"
#include "image/decode_heif_check.h"
#include "image/exif.h"

namespace ridgetally {
namespace {

template <typename T, void (*release)(T*)>
struct Releaser {
    void operator()(T* object) const { release(object); }
};
using Context = std::unique_ptr<heif_context, Releaser<heif_context, heif_context_free>>;
using Options =
    std::unique_ptr<heif_decoding_options, Releaser<heif_decoding_options, heif_decoding_options_free>>;
using Image = std::unique_ptr<const heif_image, Releaser<const heif_image, heif_image_release>>;
using Handle =
    std::unique_ptr<const heif_image_handle, Releaser<const heif_image_handle, heif_image_handle_release>>;

/// libheif ends some of its messages with a line break.
std::string on_one_line(std::string text) {
    text.erase(text.find_last_not_of(" \n") + 1);
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

Refusal refusal_of(const heif_error& error) {
    const std::string detail = on_one_line(error.message != nullptr ? error.message : "HEIF");
    const bool unsupported = error.code == heif_error_Unsupported_filetype ||
                             error.code == heif_error_Unsupported_feature ||
                             error.code == heif_error_Plugin_loading_error;
    return unsupported ? unsupported_photo(detail) : damaged_photo(detail);
}

/// Focal length only: the file's own turns and mirrors (ISO/IEC 23008-12, 6.5.10 and 6.5.12) are applied by
/// libheif, and EXIF's orientation repeats them.
ExifFacts exif_of(const heif_image_handle* handle) {
    heif_item_id id = 0;
    if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) != 1) return {};
    std::vector<std::uint8_t> block(heif_image_handle_get_metadata_size(handle, id));
    // Four bytes before the block: the offset of its TIFF header (23008-12, annex A.2.1).
    constexpr std::size_t prefix = 4;
    if (block.size() <= prefix ||
        heif_image_handle_get_metadata(handle, id, block.data()).code != heif_error_Ok)
        return {};
    return read_exif(std::span<const std::uint8_t>(block).subspan(prefix));
}

cv::Mat bgr_of(const heif_image* image, bool premultiplied) {
    const bool alpha = heif_image_get_chroma_format(image) == heif_chroma_interleaved_RGBA;
    int stride = 0;
    const std::uint8_t* data = heif_image_get_plane_readonly(image, heif_channel_interleaved, &stride);
    if (data == nullptr) return {};
    const cv::Mat rgb(heif_image_get_primary_height(image), heif_image_get_primary_width(image),
                      alpha ? CV_8UC4 : CV_8UC3, const_cast<std::uint8_t*>(data),
                      static_cast<std::size_t>(stride));
    cv::Mat bgr;
    cv::cvtColor(rgb, bgr, alpha ? cv::COLOR_RGBA2BGRA : cv::COLOR_RGB2BGR);
    return alpha ? on_white(bgr, premultiplied ? Alpha::premultiplied : Alpha::straight) : bgr;
}

}  // namespace

Outcome<UprightPicture> decode_heif(std::span<const std::uint8_t> bytes, const ReadPhotoOptions& options) {
    const auto structure = heif::read_structure(bytes);
    if (!structure) return structure.refusal();
    if (auto refusal = heif::refusal_before_decoding(*structure, bytes.size(), options)) return *refusal;

    const Context context(heif_context_alloc());
    heif_error error =
        heif_context_read_from_memory_without_copy(context.get(), bytes.data(), bytes.size(), nullptr);
    if (error.code != heif_error_Ok) return refusal_of(error);

    heif_image_handle* found = nullptr;
    error = heif_context_get_primary_image_handle(context.get(), &found);
    const Handle handle(found);
    if (error.code != heif_error_Ok) return refusal_of(error);
    const int width = heif_image_handle_get_width(handle.get());
    const int height = heif_image_handle_get_height(handle.get());
    if (auto refusal = size_refusal(width, height, options)) return *refusal;

    const Options decoding(heif_decoding_options_alloc());
    decoding->strict_decoding = 1;
    const bool alpha = heif_image_handle_has_alpha_channel(handle.get()) != 0;
    heif_image* decoded = nullptr;
    error =
        heif_decode_image(handle.get(), &decoded, heif_colorspace_RGB,
                          alpha ? heif_chroma_interleaved_RGBA : heif_chroma_interleaved_RGB, decoding.get());
    const Image image(decoded);
    if (error.code != heif_error_Ok) return refusal_of(error);

    const cv::Mat bgr = bgr_of(image.get(), heif_image_handle_is_premultiplied_alpha(handle.get()) != 0);
    if (bgr.empty()) return damaged_photo("no pixels");
    // What came out may differ from what the header declared.
    if (auto refusal = size_refusal(bgr.cols, bgr.rows, options)) return *refusal;
    return picture_from(bgr, focal_length_of_whole_frame(exif_of(handle.get()), bgr.cols, bgr.rows));
}

}  // namespace ridgetally
