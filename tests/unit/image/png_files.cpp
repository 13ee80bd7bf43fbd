#include "png_files.h"

#include <png.h>

namespace ridgetally::files {
namespace {

void append(png_structp png, png_bytep data, std::size_t length) {
    auto& bytes = *static_cast<Bytes*>(png_get_io_ptr(png));
    bytes.insert(bytes.end(), data, data + length);
}

/// Writes header, extra chunks by `more`, and rows. libpng's default error handler ends a failing test.
template <typename More>
Bytes written(const cv::Mat& picture, int colour_type, PngRows rows, More more) {
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    Bytes bytes;
    png_set_write_fn(png, &bytes, append, nullptr);
    png_set_IHDR(png, info, static_cast<png_uint_32>(picture.cols), static_cast<png_uint_32>(picture.rows),
                 picture.depth() == CV_16U ? 16 : 8, colour_type,
                 rows == PngRows::interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    more(png, info);
    png_write_info(png, info);
    png_set_bgr(png);
    if (picture.depth() == CV_16U) png_set_swap(png);  // PNG is big-endian, the machine is not
    std::vector<png_bytep> starts;
    starts.reserve(static_cast<std::size_t>(picture.rows));
    for (int y = 0; y < picture.rows; ++y) starts.push_back(const_cast<png_bytep>(picture.ptr(y)));
    png_write_image(png, starts.data());
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    return bytes;
}

}  // namespace

Bytes png_file(const cv::Mat& picture, PngRows rows, const Bytes& exif) {
    const int colour_type = picture.channels() == 1   ? PNG_COLOR_TYPE_GRAY
                            : picture.channels() == 3 ? PNG_COLOR_TYPE_RGB
                                                      : PNG_COLOR_TYPE_RGB_ALPHA;
    Bytes block = exif;
    return written(picture, colour_type, rows, [&block](png_structp png, png_infop info) {
        if (!block.empty()) png_set_eXIf_1(png, info, static_cast<png_uint_32>(block.size()), block.data());
    });
}

Bytes palette_png_file(const cv::Mat& indices, const std::vector<cv::Vec3b>& palette, const Bytes& alpha) {
    return written(indices, PNG_COLOR_TYPE_PALETTE, PngRows::plain, [&](png_structp png, png_infop info) {
        std::vector<png_color> colours;
        colours.reserve(palette.size());
        for (const auto& c : palette) colours.push_back({c[2], c[1], c[0]});
        png_set_PLTE(png, info, colours.data(), static_cast<int>(colours.size()));
        if (!alpha.empty()) png_set_tRNS(png, info, alpha.data(), static_cast<int>(alpha.size()), nullptr);
    });
}

}  // namespace ridgetally::files
