#include <algorithm>
#include <array>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "image/colour_overview.h"
#include "image/decode.h"
#include "image/jpeg_reader.h"
#include "image/orientation.h"

namespace ridgetally {
namespace {

/// Luma and colour differences as they are stored, with luma at every pixel: nearly all photos. Their planes
/// are taken as they are decoded; the colours are never spread over every pixel.
bool has_luma_plane(const jpeg_decompress_struct& info) {
    const bool grey = info.jpeg_color_space == JCS_GRAYSCALE && info.num_components == 1;
    const bool colour = info.jpeg_color_space == JCS_YCbCr && info.num_components == 3;
    return (grey || colour) && info.comp_info[0].h_samp_factor == info.max_h_samp_factor &&
           info.comp_info[0].v_samp_factor == info.max_v_samp_factor;
}

/// A component: its rows in whole blocks as the decoder writes them, some at a time, and where its picture
/// part lies upright (ITU-T T.81, A.1.1 and A.2.4).
struct Plane {
    cv::Size used;  // of the stored picture part
    int unit_rows = 0;
    cv::Mat blocks;
    cv::Mat upright;
};

/// Units of rows decoded before they are put upright: with 4032 pixels a row and half of the colours they
/// stay in the second level cache.
constexpr int units_at_a_time = 4;

Plane plane_for(const jpeg_decompress_struct& info, const jpeg_component_info& component,
                Orientation orientation) {
    const auto part = [](JDIMENSION size, int factor, int most_factor) {
        return (static_cast<int>(size) * factor + most_factor - 1) / most_factor;
    };
    const int units = (static_cast<int>(info.image_width) + info.max_h_samp_factor * DCTSIZE - 1) /
                      (info.max_h_samp_factor * DCTSIZE);
    Plane plane;
    plane.used = {part(info.image_width, component.h_samp_factor, info.max_h_samp_factor),
                  part(info.image_height, component.v_samp_factor, info.max_v_samp_factor)};
    plane.unit_rows = component.v_samp_factor * DCTSIZE;
    plane.blocks.create(units_at_a_time * plane.unit_rows, units * component.h_samp_factor * DCTSIZE,
                        CV_8UC1);
    plane.upright.create(upright_size(plane.used, orientation), CV_8UC1);
    return plane;
}

/// Decodes one row of coded units, the `unit`-th of those held at a time: `v_samp_factor` rows of blocks of
/// each component.
bool read_unit_row(JpegReader& reader, std::vector<Plane>& planes, int unit) {
    constexpr int most_rows = MAX_SAMP_FACTOR * DCTSIZE;
    std::array<std::array<JSAMPROW, most_rows>, MAX_COMPONENTS> rows{};
    std::array<JSAMPARRAY, MAX_COMPONENTS> components{};
    for (std::size_t c = 0; c < planes.size(); ++c) {
        const int count = planes[c].unit_rows;
        for (int y = 0; y < count; ++y)
            rows[c][static_cast<std::size_t>(y)] = planes[c].blocks.ptr(unit * count + y);
        components[c] = rows[c].data();
    }
    JSAMPIMAGE const image = components.data();
    return reader.guarded([&reader, image] {
        const auto lines = static_cast<JDIMENSION>(reader.info.max_v_samp_factor * DCTSIZE);
        jpeg_read_raw_data(&reader.info, image, lines);
    });
}

/// Puts what is held upright; `first_unit` is the place of its first row of units in the picture.
void place_units(std::vector<Plane>& planes, int first_unit, Orientation orientation) {
    for (Plane& plane : planes) {
        const int first = first_unit * plane.unit_rows;
        const int rows = std::min(plane.blocks.rows, plane.used.height - first);
        if (rows > 0)
            place_rows(plane.blocks(cv::Rect(0, 0, plane.used.width, rows)), first, orientation,
                       plane.upright);
    }
}

bool read_planes(JpegReader& reader, std::vector<Plane>& planes, Orientation orientation) {
    for (int first_unit = 0; reader.info.output_scanline < reader.info.output_height;
         first_unit += units_at_a_time) {
        for (int unit = 0; unit < units_at_a_time && reader.info.output_scanline < reader.info.output_height;
             ++unit)
            if (!read_unit_row(reader, planes, unit)) return false;
        place_units(planes, first_unit, orientation);
    }
    return reader.guarded([&reader] { jpeg_finish_decompress(&reader.info); });
}

Outcome<UprightPicture> decode_planes(JpegReader& reader, Orientation orientation) {
    const bool started = reader.guarded([&reader] {
        reader.info.out_color_space = reader.info.jpeg_color_space;
        reader.info.raw_data_out = TRUE;
        jpeg_start_decompress(&reader.info);
    });
    if (!started) return reader.refusal();
    std::vector<Plane> planes;
    for (int c = 0; c < reader.info.num_components; ++c)
        planes.push_back(plane_for(reader.info, reader.info.comp_info[c], orientation));
    if (!read_planes(reader, planes, orientation)) return reader.refusal();

    UprightPicture picture;
    picture.grey = planes[0].upright;
    if (planes.size() == 3) {
        picture.colour = colour_overview(picture.grey, planes[1].upright, planes[2].upright);
    } else {
        const cv::Mat no_colour(8, 8, CV_8UC1, cv::Scalar(128));
        picture.colour = colour_overview(picture.grey, no_colour, no_colour);
    }
    return picture;
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

/// The rest: inks, and colours that are stored as red, green and blue.
Outcome<UprightPicture> decode_colours(JpegReader& reader, Orientation orientation) {
    if (!start(reader)) return reader.refusal();
    const cv::Size stored(static_cast<int>(reader.info.image_width),
                          static_cast<int>(reader.info.image_height));
    cv::Mat upright(upright_size(stored, orientation), CV_8UC3);
    if (!read_pixels(reader, orientation, upright)) return reader.refusal();
    return picture_from(upright, std::nullopt);
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
    auto picture = has_luma_plane(reader.info) ? decode_planes(reader, exif.orientation)
                                               : decode_colours(reader, exif.orientation);
    if (!picture) return picture;
    if (reader.errors.damaged) return reader.refusal();
    UprightPicture whole = std::move(picture).value();
    whole.focal_length_35mm = focal_length_of_whole_frame(exif, stored.width, stored.height);
    return whole;
}

}  // namespace ridgetally
