#pragma once

#include <cstddef>
#include <cstdio>
// libjpeg needs the two above it.
#include <jpeglib.h>

#include <array>
#include <csetjmp>
#include <cstdint>
#include <span>

#include "core/outcome.h"
#include "image/exif.h"

/// libjpeg in terms of this program; for decode_jpeg.cpp alone.
namespace ridgetally {

/// libjpeg's error handler, then our own state. libjpeg leaves by longjmp, so that no frame between
/// JpegReader::guarded and libjpeg may own anything.
struct JpegErrors {
    jpeg_error_mgr base{};
    std::jmp_buf jump{};
    bool damaged = false;
    bool unsupported = false;
    std::array<char, JMSG_LENGTH_MAX> message{};
};

/// A JPEG being decoded. Whatever goes wrong in a step, the reader ends as it should.
class JpegReader {
  public:
    JpegReader();
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

    /// Why libjpeg gave up, or what it said is lost.
    [[nodiscard]] Refusal refusal() const;

    jpeg_decompress_struct info{};
    JpegErrors errors;
    jpeg_progress_mgr progress{};
};

/// Reads up to the pixels, keeping EXIF; false where libjpeg gave up. The bytes must outlive the reader.
[[nodiscard]] bool read_header(JpegReader& reader, std::span<const std::uint8_t> bytes);

/// Of a header that was read.
[[nodiscard]] ExifFacts exif_of(const jpeg_decompress_struct& info);

}  // namespace ridgetally
