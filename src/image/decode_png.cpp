#include <png.h>

#include <array>
#include <csetjmp>
#include <cstring>
#include <string>
#include <vector>

#include "image/decode.h"
#include "image/exif.h"
#include "image/orientation.h"

namespace ridgetally {
namespace {

/// Bytes still to read, and what libpng said when it gave up. libpng leaves by longjmp, so that no frame
/// between `guarded` and libpng may own anything.
struct Source {
    std::span<const std::uint8_t> left;
    std::array<char, 80> message{};
};

[[noreturn]] void on_error(png_structp png, png_const_charp message) {
    auto& source = *static_cast<Source*>(png_get_error_ptr(png));
    std::strncpy(source.message.data(), message, source.message.size() - 1);
    png_longjmp(png, 1);
}

void on_warning(png_structp /*png*/, png_const_charp /*message*/) {}

void on_read(png_structp png, png_bytep data, std::size_t length) {
    auto& source = *static_cast<Source*>(png_get_io_ptr(png));
    if (length > source.left.size()) png_error(png, "the file ends early");
    std::memcpy(data, source.left.data(), length);
    source.left = source.left.subspan(length);
}

class PngReader {
  public:
    explicit PngReader(std::span<const std::uint8_t> bytes) : source{bytes} {
        png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &source, on_error, on_warning);
        if (png != nullptr) info = png_create_info_struct(png);
        if (png != nullptr) png_set_read_fn(png, &source, on_read);
    }
    PngReader(const PngReader&) = delete;
    PngReader& operator=(const PngReader&) = delete;
    ~PngReader() { png_destroy_read_struct(&png, &info, nullptr); }

    /// Runs one step of libpng; false where libpng gave up. The step owns nothing.
    template <typename Step>
    [[nodiscard]] bool guarded(Step step) {
        if (png == nullptr || info == nullptr) return false;
        if (setjmp(png_jmpbuf(png)) != 0) return false;
        step(png, info);
        return true;
    }

    [[nodiscard]] Refusal refusal() const { return damaged_photo(source.message.data()); }

    Source source;
    png_structp png = nullptr;
    png_infop info = nullptr;
};

/// Leaves out the chunks that nothing here uses. A few kilobytes of text or profile unpack to megabytes, and
/// a file may hold any number of them.
void leave_out_texts(png_structp png) {
    constexpr std::array<std::uint8_t, 25> names = {'i', 'C', 'C', 'P', 0,   'i', 'T', 'X', 't',
                                                    0,   's', 'P', 'L', 'T', 0,   't', 'E', 'X',
                                                    't', 0,   'z', 'T', 'X', 't', 0};
    png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_NEVER, names.data(), 5);
}

/// After this, rows are 8 bits a channel: blue, green, red and, where the file has transparency, alpha.
bool read_header(PngReader& reader) {
    return reader.guarded([](png_structp png, png_infop info) {
        leave_out_texts(png);
        png_set_chunk_malloc_max(png, 16000000);  // no photo needs more in one of the others
        png_set_user_limits(png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // size_refusal decides
        png_read_info(png, info);
        png_set_expand(png);
        png_set_scale_16(png);
        png_set_gray_to_rgb(png);
        png_set_bgr(png);
        png_set_interlace_handling(png);
    });
}

bool read_pixels(PngReader& reader, cv::Mat& pixels) {
    std::vector<png_bytep> rows;
    rows.reserve(static_cast<std::size_t>(pixels.rows));
    for (int y = 0; y < pixels.rows; ++y) rows.push_back(pixels.ptr(y));
    png_bytepp const first = rows.data();
    return reader.guarded([first](png_structp png, png_infop info) {
        png_read_image(png, first);
        png_read_end(png, info);
    });
}

ExifFacts exif_of(PngReader& reader) {
    png_uint_32 size = 0;
    png_bytep block = nullptr;
    const bool read = reader.guarded(
        [&size, &block](png_structp png, png_infop info) { png_get_eXIf_1(png, info, &size, &block); });
    return read && block != nullptr ? read_exif({block, size}) : ExifFacts{};
}

}  // namespace

Outcome<UprightPicture> decode_png(std::span<const std::uint8_t> bytes, const ReadPhotoOptions& options) {
    PngReader reader(bytes);
    if (!read_header(reader)) return reader.refusal();
    const auto width = png_get_image_width(reader.png, reader.info);
    const auto height = png_get_image_height(reader.png, reader.info);
    if (auto refusal = size_refusal(width, height, options)) return *refusal;

    if (!reader.guarded([](png_structp png, png_infop info) { png_read_update_info(png, info); }))
        return reader.refusal();
    const int channels = png_get_channels(reader.png, reader.info);
    if (channels != 3 && channels != 4) return unsupported_photo("unusual PNG channels");
    cv::Mat pixels(static_cast<int>(height), static_cast<int>(width), CV_8UC(channels));
    if (!read_pixels(reader, pixels)) return reader.refusal();
    if (channels == 4) pixels = on_white(pixels, Alpha::straight);

    const ExifFacts exif = exif_of(reader);
    return picture_from(turned_upright(std::move(pixels), exif.orientation),
                        focal_length_of_whole_frame(exif, width, height));
}

}  // namespace ridgetally
