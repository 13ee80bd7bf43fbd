#include "image/encode.h"

#include <cstddef>
#include <cstdio>
// libjpeg needs the two above it.
#include <jpeglib.h>
#include <png.h>

#include <csetjmp>
#include <cstdlib>
#include <stdexcept>
#include <utility>

namespace ridgetally {
namespace {

void require_picture(const cv::Mat& picture) {
    if (picture.empty() || (picture.type() != CV_8UC1 && picture.type() != CV_8UC3))
        throw std::invalid_argument("only 8-bit grey or BGR pictures are encoded");
}

/// libjpeg and libpng leave by longjmp; no frame between `guarded` and the library may own anything.
struct JpegErrors {
    jpeg_error_mgr base{};
    std::jmp_buf jump{};
};

class JpegWriter {
  public:
    JpegWriter() {
        info.err = jpeg_std_error(&errors.base);
        errors.base.error_exit = [](j_common_ptr common) {
            std::longjmp(reinterpret_cast<JpegErrors*>(common->err)->jump, 1);
        };
        errors.base.output_message = [](j_common_ptr) {};
    }
    JpegWriter(const JpegWriter&) = delete;
    JpegWriter& operator=(const JpegWriter&) = delete;
    ~JpegWriter() {
        jpeg_destroy_compress(&info);
        std::free(bytes);  // jpeg_mem_dest allocates with malloc
    }

    /// False where libjpeg gave up.
    [[nodiscard]] bool write(const cv::Mat& picture, int quality) {
        if (setjmp(errors.jump) != 0) return false;
        jpeg_create_compress(&info);
        jpeg_mem_dest(&info, &bytes, &size);
        info.image_width = static_cast<JDIMENSION>(picture.cols);
        info.image_height = static_cast<JDIMENSION>(picture.rows);
        info.input_components = picture.channels();
        info.in_color_space = picture.channels() == 3 ? JCS_EXT_BGR : JCS_GRAYSCALE;
        jpeg_set_defaults(&info);
        jpeg_set_quality(&info, quality, TRUE);
        info.comp_info[0].h_samp_factor = 1;
        info.comp_info[0].v_samp_factor = 1;
        jpeg_start_compress(&info, TRUE);
        while (info.next_scanline < info.image_height) {
            auto* row = const_cast<JSAMPROW>(picture.ptr(static_cast<int>(info.next_scanline)));
            jpeg_write_scanlines(&info, &row, 1);
        }
        jpeg_finish_compress(&info);
        return true;
    }

    jpeg_compress_struct info{};
    JpegErrors errors;
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
};

void append(png_structp png, png_bytep data, std::size_t length) {
    auto& bytes = *static_cast<std::vector<std::uint8_t>*>(png_get_io_ptr(png));
    bytes.insert(bytes.end(), data, data + length);
}

class PngWriter {
  public:
    PngWriter() {
        const auto on_error = [](png_structp failed, png_const_charp) { png_longjmp(failed, 1); };
        const auto on_warning = [](png_structp, png_const_charp) {};
        png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, on_error, on_warning);
        if (png != nullptr) info = png_create_info_struct(png);
    }
    PngWriter(const PngWriter&) = delete;
    PngWriter& operator=(const PngWriter&) = delete;
    ~PngWriter() { png_destroy_write_struct(&png, &info); }

    /// False where libpng gave up.
    [[nodiscard]] bool write(const cv::Mat& picture) {
        if (png == nullptr || info == nullptr || setjmp(png_jmpbuf(png)) != 0) return false;
        png_set_write_fn(png, &bytes, append, nullptr);
        // The fastest level: the maker waits for this file, nobody stores many.
        png_set_compression_level(png, 1);
        png_set_filter(png, 0, PNG_FILTER_SUB);
        png_set_IHDR(png, info, static_cast<png_uint_32>(picture.cols),
                     static_cast<png_uint_32>(picture.rows), 8,
                     picture.channels() == 3 ? PNG_COLOR_TYPE_RGB : PNG_COLOR_TYPE_GRAY, PNG_INTERLACE_NONE,
                     PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
        png_write_info(png, info);
        png_set_bgr(png);
        for (int y = 0; y < picture.rows; ++y) png_write_row(png, picture.ptr(y));
        png_write_end(png, info);
        return true;
    }

    png_structp png = nullptr;
    png_infop info = nullptr;
    std::vector<std::uint8_t> bytes;
};

}  // namespace

std::vector<std::uint8_t> encode_png(const cv::Mat& picture) {
    require_picture(picture);
    PngWriter writer;
    if (!writer.write(picture)) throw std::runtime_error("libpng could not encode the picture");
    return std::move(writer.bytes);
}

std::vector<std::uint8_t> encode_jpeg(const cv::Mat& picture, int quality) {
    require_picture(picture);
    if (quality < 1 || quality > 100 || picture.cols > JPEG_MAX_DIMENSION ||
        picture.rows > JPEG_MAX_DIMENSION)
        throw std::invalid_argument("JPEG quality is 1-100, sides at most 65500 px");
    JpegWriter writer;
    if (!writer.write(picture, quality)) throw std::runtime_error("libjpeg could not encode the picture");
    return {writer.bytes, writer.bytes + writer.size};
}

Outcome<Written> write_png(const std::string& path, const cv::Mat& picture) {
    return write_file(path, encode_png(picture));
}

Outcome<Written> write_jpeg(const std::string& path, const cv::Mat& picture, int quality) {
    return write_file(path, encode_jpeg(picture, quality));
}

}  // namespace ridgetally
