#include "synthetic/jpeg_file.h"

#include <jpeglib.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally::synthetic {
namespace {

/// The pixels as stored, so that a reader that honours `orientation` (EXIF tag 0x0112) sees them upright.
cv::Mat3b stored(const cv::Mat3b& upright, int orientation) {
    cv::Mat out = upright.clone();
    switch (orientation) {
        case 2:
            cv::flip(upright, out, 1);
            break;
        case 3:
            cv::rotate(upright, out, cv::ROTATE_180);
            break;
        case 4:
            cv::flip(upright, out, 0);
            break;
        case 5:
            cv::transpose(upright, out);
            break;
        case 6:
            cv::rotate(upright, out, cv::ROTATE_90_COUNTERCLOCKWISE);
            break;
        case 7:
            cv::flip(upright.t(), out, -1);
            break;
        case 8:
            cv::rotate(upright, out, cv::ROTATE_90_CLOCKWISE);
            break;
        default:
            break;
    }
    return out;
}

void put16(std::vector<unsigned char>& out, unsigned v) {
    out.push_back(static_cast<unsigned char>(v & 0xFF));
    out.push_back(static_cast<unsigned char>(v >> 8 & 0xFF));
}

void put32(std::vector<unsigned char>& out, unsigned v) {
    put16(out, v & 0xFFFF);
    put16(out, v >> 16);
}

void entry(std::vector<unsigned char>& out, unsigned tag, unsigned type, unsigned value) {
    put16(out, tag), put16(out, type), put32(out, 1), put32(out, value);
}

/// Little-endian TIFF structure with the orientation and, in the EXIF directory, the 35 mm focal length.
std::vector<unsigned char> exif_block(const JpegOptions& options) {
    std::vector<unsigned char> out{'E', 'x', 'i', 'f', 0, 0, 'I', 'I', 42, 0};
    put32(out, 8);
    put16(out, 2);
    entry(out, 0x0112, 3, static_cast<unsigned>(options.orientation));
    entry(out, 0x8769, 4, 8 + 2 + 2 * 12 + 4);
    put32(out, 0);
    put16(out, 1);
    entry(out, 0xA405, 3, static_cast<unsigned>(std::lround(options.focal35_mm.value_or(0.0))));
    put32(out, 0);
    return out;
}

}  // namespace

std::vector<unsigned char> jpeg_bytes(const cv::Mat3b& upright, const JpegOptions& options) {
    const cv::Mat3b pixels = stored(upright, options.orientation);
    jpeg_compress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors);
    jpeg_create_compress(&info);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&info, &buffer, &size);
    info.image_width = static_cast<JDIMENSION>(pixels.cols);
    info.image_height = static_cast<JDIMENSION>(pixels.rows);
    info.input_components = 3;
    info.in_color_space = JCS_EXT_BGR;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, options.quality, TRUE);
    jpeg_start_compress(&info, TRUE);
    if (options.focal35_mm || options.orientation != 1) {
        const auto exif = exif_block(options);
        jpeg_write_marker(&info, JPEG_APP0 + 1, exif.data(), static_cast<unsigned>(exif.size()));
    }
    while (info.next_scanline < info.image_height) {
        JSAMPROW row = const_cast<JSAMPROW>(pixels.ptr(static_cast<int>(info.next_scanline)));
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    std::vector<unsigned char> out(buffer, buffer + size);
    jpeg_destroy_compress(&info);
    std::free(buffer);
    return out;
}

void write_file(const std::string& path, const std::vector<unsigned char>& bytes) {
    std::ofstream out(path, std::ios::binary);
    out.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (!out.flush()) throw std::runtime_error("cannot write " + path);
}

}  // namespace ridgetally::synthetic
