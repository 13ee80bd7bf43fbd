#include "image/jpeg_reader.h"

// jerror.h needs jpeglib.h before it.
#include <jerror.h>

#include <algorithm>
#include <cstring>
#include <string>

#include "image/decode.h"

namespace ridgetally {
namespace {

JpegErrors& errors_of(j_common_ptr common) { return *reinterpret_cast<JpegErrors*>(common->err); }

/// Well-formed pictures of kinds that libjpeg leaves out.
bool is_unsupported(int code) {
    constexpr std::array codes = {JERR_ARITH_NOTIMPL,        JERR_BAD_PRECISION, JERR_CCIR601_NOTIMPL,
                                  JERR_COMPONENT_COUNT,      JERR_NOTIMPL,       JERR_CONVERSION_NOTIMPL,
                                  JERR_FRACT_SAMPLE_NOTIMPL, JERR_NOT_COMPILED,  JERR_SOF_UNSUPPORTED};
    return std::any_of(codes.begin(), codes.end(), [code](int known) { return known == code; });
}

[[noreturn]] void on_error(j_common_ptr common) {
    JpegErrors& errors = errors_of(common);
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
    JpegErrors& errors = errors_of(common);
    if (level >= 0 || errors.damaged || !loses_data(errors.base)) return;
    errors.damaged = true;
    errors.base.format_message(common, errors.message.data());
}

void on_output(j_common_ptr /*common*/) {}

/// A progressive picture has some ten scans. Empty ones cost the file a few bytes and the decoder a pass over
/// all of the picture.
void on_progress(j_common_ptr common) {
    constexpr int most_scans = 100;  // ten times what encoders write; 9 s of processor time at 120 megapixels
    if (reinterpret_cast<j_decompress_ptr>(common)->input_scan_number <= most_scans) return;
    JpegErrors& errors = errors_of(common);
    errors.damaged = true;
    std::strncpy(errors.message.data(), "too many scans", errors.message.size() - 1);
    std::longjmp(errors.jump, 1);
}

}  // namespace

JpegReader::JpegReader() {
    info.err = jpeg_std_error(&errors.base);
    errors.base.error_exit = on_error;
    errors.base.emit_message = on_message;
    errors.base.output_message = on_output;
    progress.progress_monitor = on_progress;
}

Refusal JpegReader::refusal() const {
    const std::string detail = errors.message.data();
    return errors.unsupported ? unsupported_photo(detail) : damaged_photo(detail);
}

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

}  // namespace ridgetally
