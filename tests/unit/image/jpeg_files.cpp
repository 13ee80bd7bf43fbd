#include "jpeg_files.h"

#include <cstddef>
#include <cstdio>
// libjpeg needs the two above it.
#include <jpeglib.h>

#include <cstdlib>
#include <memory>
#include <opencv2/imgproc.hpp>

namespace ridgetally::files {
namespace {

cv::Mat samples_of(const cv::Mat& bgr, JpegColours colours) {
    cv::Mat samples;
    if (colours == JpegColours::grey) {
        cv::cvtColor(bgr, samples, cv::COLOR_BGR2GRAY);
    } else if (colours == JpegColours::ycc || colours == JpegColours::rgb) {
        cv::cvtColor(bgr, samples, cv::COLOR_BGR2RGB);
    } else {
        const bool inverted = colours != JpegColours::cmyk_plain;
        samples.create(bgr.size(), CV_8UC4);
        for (int y = 0; y < bgr.rows; ++y) {
            for (int x = 0; x < bgr.cols; ++x) {
                const auto& c = bgr.at<cv::Vec3b>(y, x);
                cv::Vec4b inks(static_cast<std::uint8_t>(255 - c[2]), static_cast<std::uint8_t>(255 - c[1]),
                               static_cast<std::uint8_t>(255 - c[0]), 0);
                if (inverted) inks = cv::Vec4b(255, 255, 255, 255) - inks;
                samples.at<cv::Vec4b>(y, x) = inks;
            }
        }
    }
    return samples;
}

void set_colours(jpeg_compress_struct& info, JpegColours colours) {
    switch (colours) {
        case JpegColours::grey:
        case JpegColours::ycc:
            return;
        case JpegColours::rgb:
            jpeg_set_colorspace(&info, JCS_RGB);
            return;
        case JpegColours::cmyk_adobe:
            jpeg_set_colorspace(&info, JCS_CMYK);
            return;
        case JpegColours::cmyk_plain:
            jpeg_set_colorspace(&info, JCS_CMYK);
            info.write_Adobe_marker = FALSE;
            return;
        case JpegColours::ycck_adobe:
            jpeg_set_colorspace(&info, JCS_YCCK);
            return;
    }
}

}  // namespace

Bytes jpeg_file(const cv::Mat& bgr, const JpegKind& kind) {
    const cv::Mat samples = samples_of(bgr, kind.colours);
    jpeg_compress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors);
    jpeg_create_compress(&info);
    unsigned char* data = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&info, &data, &size);
    info.image_width = static_cast<JDIMENSION>(samples.cols);
    info.image_height = static_cast<JDIMENSION>(samples.rows);
    info.input_components = samples.channels();
    info.in_color_space = samples.channels() == 1   ? JCS_GRAYSCALE
                          : samples.channels() == 3 ? JCS_RGB
                                                    : JCS_CMYK;
    jpeg_set_defaults(&info);
    set_colours(info, kind.colours);
    jpeg_set_quality(&info, kind.quality, TRUE);
    info.comp_info[0].h_samp_factor = kind.horizontal_sampling;
    info.comp_info[0].v_samp_factor = kind.vertical_sampling;
    info.restart_interval = static_cast<unsigned int>(kind.restart_blocks);
    if (kind.scans == JpegScans::progressive) jpeg_simple_progression(&info);
    jpeg_start_compress(&info, TRUE);
    if (!kind.exif.empty()) {
        Bytes marker = {'E', 'x', 'i', 'f', 0, 0};
        marker.insert(marker.end(), kind.exif.begin(), kind.exif.end());
        jpeg_write_marker(&info, JPEG_APP0 + 1, marker.data(), static_cast<unsigned int>(marker.size()));
    }
    while (info.next_scanline < info.image_height) {
        auto* row = const_cast<JSAMPROW>(samples.ptr(static_cast<int>(info.next_scanline)));
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    jpeg_destroy_compress(&info);
    const std::unique_ptr<unsigned char, void (*)(void*)> owner(data, std::free);
    return {data, data + size};
}

}  // namespace ridgetally::files
