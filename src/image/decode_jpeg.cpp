#include <cstddef>
#include <cstdio>
// libjpeg needs the two above it.
#include <jpeglib.h>
// jerror.h needs jpeglib.h before it.
#include <jerror.h>

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstring>
#include <string>

#include "image/decode.h"
#include "image/exif.h"
#include "image/orientation.h"

namespace ridgetally {
namespace {

/// libjpeg's error handler, then our own state. libjpeg leaves by longjmp, so that no frame between
/// `guarded` and libjpeg may own anything.
struct Errors {
    jpeg_error_mgr base{};
    std::jmp_buf jump{};
    bool damaged = false;
    bool unsupported = false;
    std::array<char, JMSG_LENGTH_MAX> message{};
};

Errors& errors_of(j_common_ptr common) { return *reinterpret_cast<Errors*>(common->err); }

/// Well-formed pictures of kinds that libjpeg leaves out.
bool is_unsupported(int code) {
    constexpr std::array codes = {JERR_ARITH_NOTIMPL,        JERR_BAD_PRECISION, JERR_CCIR601_NOTIMPL,
                                  JERR_COMPONENT_COUNT,      JERR_NOTIMPL,       JERR_CONVERSION_NOTIMPL,
                                  JERR_FRACT_SAMPLE_NOTIMPL, JERR_NOT_COMPILED,  JERR_SOF_UNSUPPORTED};
    return std::any_of(codes.begin(), codes.end(), [code](int known) { return known == code; });
}

[[noreturn]] void on_error(j_common_ptr common) {
    Errors& errors = errors_of(common);
    errors.unsupported = is_unsupported(errors.base.msg_code);
    errors.damaged = !errors.unsupported;
    errors.base.format_message(common, errors.message.data());
    std::longjmp(errors.jump, 1);
}

/// Warnings after which libjpeg fills in grey, or which say that data was lost. Stray bytes before the next
/// header or before the end of the picture are harmless, and some cameras write them; before a restart marker
/// (T.81, B.1.1.3: 0xD0 to 0xD7) they are lost data.
bool loses_data(const jpeg_error_mgr& error) {
    switch (error.msg_code) {
        case JWRN_EXTRANEOUS_DATA:
            return error.msg_parm.i[1] >= 0xD0 && error.msg_parm.i[1] <= 0xD7;
        case JWRN_ADOBE_XFORM:
        case JWRN_JFIF_MAJOR:
        case JWRN_TOO_MUCH_DATA:
        case JWRN_BOGUS_PROGRESSION:
            return false;
        default:
            return true;
    }
}

void on_message(j_common_ptr common, int level) {
    Errors& errors = errors_of(common);
    if (level >= 0 || errors.damaged || !loses_data(errors.base)) return;
    errors.damaged = true;
    errors.base.format_message(common, errors.message.data());
}

void on_output(j_common_ptr /*common*/) {}

/// A progressive picture has some ten scans; thousands of empty ones would keep the decoder busy for hours.
void on_progress(j_common_ptr common) {
    constexpr int most_scans = 500;  // the limit that libjpeg-turbo's own fuzzers decode under
    if (reinterpret_cast<j_decompress_ptr>(common)->input_scan_number <= most_scans) return;
    Errors& errors = errors_of(common);
    errors.damaged = true;
    std::strncpy(errors.message.data(), "too many scans", errors.message.size() - 1);
    std::longjmp(errors.jump, 1);
}

class JpegReader {
  public:
    JpegReader() {
        info.err = jpeg_std_error(&errors.base);
        errors.base.error_exit = on_error;
        errors.base.emit_message = on_message;
        errors.base.output_message = on_output;
        progress.progress_monitor = on_progress;
    }
    JpegReader(const JpegReader&) = delete;
    JpegReader& operator=(const JpegReader&) = delete;
    ~JpegReader() { jpeg_destroy_decompress(&info); }

    /// Runs one step of libjpeg; false where libjpeg gave up. The step owns nothing.
    template <typename Step>
    [[nodiscard]] bool guarded(Step step) {
        if (setjmp(errors.jump) != 0) return false;
        step();
        return true;
    }

    [[nodiscard]] Refusal refusal() const {
        const std::string detail = errors.message.data();
        return errors.unsupported ? unsupported_photo(detail) : damaged_photo(detail);
    }

    jpeg_decompress_struct info{};
    Errors errors;
    jpeg_progress_mgr progress{};
};

bool read_header(JpegReader& reader, std::span<const std::uint8_t> bytes) {
    return reader.guarded([&reader, bytes] {
        jpeg_create_decompress(&reader.info);
        reader.info.progress = &reader.progress;
        jpeg_mem_src(&reader.info, bytes.data(), bytes.size());
        jpeg_save_markers(&reader.info, JPEG_APP0 + 1, 0xFFFF);
        jpeg_read_header(&reader.info, TRUE);
    });
}

ExifFacts exif_of(const jpeg_decompress_struct& info) {
    for (const auto* marker = info.marker_list; marker != nullptr; marker = marker->next) {
        if (marker->marker == JPEG_APP0 + 1 && marker->data_length >= 6 &&
            std::memcmp(marker->data, "Exif\0", 6) == 0)
            return read_exif({marker->data, marker->data_length});
    }
    return {};
}

/// Inks to light: R = C * K / 255 where the file stores 255 minus the ink, which Adobe's marker tells
/// (Adobe Technical Note 5116, section 18: its files hold inverted CMYK).
cv::Mat bgr_from_cmyk(const cv::Mat& cmyk, bool inverted) {
    cv::Mat bgr(cmyk.size(), CV_8UC3);
    for (int y = 0; y < cmyk.rows; ++y) {
        const auto* in = cmyk.ptr<cv::Vec4b>(y);
        auto* out = bgr.ptr<cv::Vec3b>(y);
        for (int x = 0; x < cmyk.cols; ++x) {
            for (int c = 0; c < 3; ++c) {
                const int light = inverted ? in[x][2 - c] : 255 - in[x][2 - c];
                const int key = inverted ? in[x][3] : 255 - in[x][3];
                out[x][c] = static_cast<std::uint8_t>((light * key + 127) / 255);
            }
        }
    }
    return bgr;
}

bool start(JpegReader& reader) {
    return reader.guarded([&reader] {
        const bool inks =
            reader.info.jpeg_color_space == JCS_CMYK || reader.info.jpeg_color_space == JCS_YCCK;
        reader.info.out_color_space = inks ? JCS_CMYK : JCS_EXT_BGR;
        jpeg_start_decompress(&reader.info);
    });
}

/// Fills `strip` with the next rows; it has no more rows than the picture has left.
bool read_rows(JpegReader& reader, cv::Mat& strip) {
    std::uint8_t* const data = strip.data;
    const std::size_t step = strip.step;
    const int rows = strip.rows;
    return reader.guarded([&reader, data, step, rows] {
        for (int y = 0; y < rows;) {
            JSAMPROW row = data + static_cast<std::size_t>(y) * step;
            y += static_cast<int>(jpeg_read_scanlines(&reader.info, &row, 1));
        }
    });
}

/// Decodes in strips, each put where it lies in the upright picture: no second full picture in memory.
bool read_pixels(JpegReader& reader, Orientation orientation, cv::Mat& upright) {
    constexpr int strip_rows = 64;  // 64 rows of 4032 pixels stay in the second level cache
    const bool inks = reader.info.out_color_space == JCS_CMYK;
    const int height = static_cast<int>(reader.info.output_height);
    const int width = static_cast<int>(reader.info.output_width);
    cv::Mat strip(std::min(strip_rows, height), width, inks ? CV_8UC4 : CV_8UC3);
    for (int first = 0; first < height; first += strip_rows) {
        cv::Mat part = strip.rowRange(0, std::min(strip_rows, height - first));
        if (!read_rows(reader, part)) return false;
        place_rows(inks ? bgr_from_cmyk(part, reader.info.saw_Adobe_marker != FALSE) : part, first,
                   orientation, upright);
    }
    return reader.guarded([&reader] { jpeg_finish_decompress(&reader.info); });
}

}  // namespace

Outcome<UprightPicture> decode_jpeg(std::span<const std::uint8_t> bytes, const ReadPhotoOptions& options) {
    JpegReader reader;
    if (!read_header(reader, bytes)) return reader.refusal();
    const cv::Size stored(static_cast<int>(reader.info.image_width),
                          static_cast<int>(reader.info.image_height));
    if (auto refusal = size_refusal(stored.width, stored.height, options)) return *refusal;
    if (reader.info.jpeg_color_space == JCS_UNKNOWN) return unsupported_photo("unknown colours");

    const ExifFacts exif = exif_of(reader.info);
    if (!start(reader)) return reader.refusal();
    cv::Mat upright(upright_size(stored, exif.orientation), CV_8UC3);
    if (!read_pixels(reader, exif.orientation, upright) || reader.errors.damaged) return reader.refusal();
    return UprightPicture{upright, focal_length_of_whole_frame(exif, stored.width, stored.height)};
}

}  // namespace ridgetally
