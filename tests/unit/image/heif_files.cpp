#include "heif_files.h"

#include <memory>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally::files {
namespace {

void require(const heif_error& error) {
    if (error.code != heif_error_Ok) throw std::runtime_error(error.message);
}

heif_error append(heif_context* /*context*/, const void* data, std::size_t size, void* target) {
    const auto* bytes = static_cast<const std::uint8_t*>(data);
    static_cast<Bytes*>(target)->insert(static_cast<Bytes*>(target)->end(), bytes, bytes + size);
    return {heif_error_Ok, heif_suberror_Unspecified, "ok"};
}

heif_image* image_of(const cv::Mat& picture) {
    const bool alpha = picture.channels() == 4;
    heif_image* image = nullptr;
    require(heif_image_create(picture.cols, picture.rows, heif_colorspace_RGB,
                              alpha ? heif_chroma_interleaved_RGBA : heif_chroma_interleaved_RGB, &image));
    require(heif_image_add_plane(image, heif_channel_interleaved, picture.cols, picture.rows, 8));
    int stride = 0;
    std::uint8_t* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    cv::Mat target(picture.size(), picture.type(), plane, static_cast<std::size_t>(stride));
    cv::cvtColor(picture, target, alpha ? cv::COLOR_BGRA2RGBA : cv::COLOR_BGR2RGB);
    return image;
}

}  // namespace

Bytes heic_file(const cv::Mat& picture, heif_orientation turn, const Bytes& exif) {
    const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(),
                                                                              heif_context_free);
    heif_encoder* encoder = nullptr;
    require(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &encoder));
    require(heif_encoder_set_lossy_quality(encoder, 95));
    require(heif_encoder_set_parameter_string(encoder, "chroma", "444"));
    heif_encoding_options* options = heif_encoding_options_alloc();
    options->image_orientation = turn;
    heif_image* image = image_of(picture);
    heif_image_handle* handle = nullptr;
    require(heif_context_encode_image(context.get(), image, encoder, options, &handle));
    if (!exif.empty())
        require(heif_context_add_exif_metadata(context.get(), handle, exif.data(),
                                               static_cast<int>(exif.size())));
    Bytes bytes;
    heif_writer writer{1, append};
    require(heif_context_write(context.get(), &writer, &bytes));
    heif_image_handle_release(handle);
    heif_image_release(image);
    heif_encoding_options_free(options);
    heif_encoder_release(encoder);
    return bytes;
}

}  // namespace ridgetally::files
