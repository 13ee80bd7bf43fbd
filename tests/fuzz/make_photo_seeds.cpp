#include <cstdio>
#include <string>

#include "core/random.h"
#include "image/file_bytes.h"
#include "unit/image/heif_boxes.h"
#include "unit/image/heif_files.h"
#include "unit/image/jpeg_files.h"
#include "unit/image/png_files.h"
#include "unit/image/webp_files.h"

/// Writes the small photo files that the photo target starts from into the folder that is named. They are
/// kept in corpus/photo; run it again for a new kind of file.
namespace ridgetally {
namespace {

using namespace files;

/// Something in every frequency, so that the coders use more than their shortest codes.
cv::Mat picture(int width, int height, int type = CV_8UC3) {
    Random random(3);
    cv::Mat pixels(height, width, type);
    for (std::size_t i = 0; i < pixels.total() * pixels.elemSize(); ++i)
        pixels.data[i] = static_cast<std::uint8_t>(random.whole(0, 255));
    return pixels;
}

HeifItem heif_tile() {
    return coded_picture(heic_file(cv::Mat(64, 64, CV_8UC3, cv::Scalar(red)), heif_orientation_normal, {}));
}

/// Two tiles side by side.
Bytes heif_grid() {
    HeifItem left = heif_tile(), right = left;
    left.id = 2;
    right.id = 3;
    const cv::Size size(128, 64);
    return heif_file(
        {.items = {{.id = 1, .type = "grid", .declared = size, .data = grid_data(1, 2, size)}, left, right},
         .references = {{"dimg", 1, {2, 3}}}});
}

/// A picture that is a copy of itself: libheif never comes to an end.
Bytes heif_copy_of_itself() {
    HeifItem item = heif_tile();
    item.type = "iden";
    return heif_file({.items = {item}, .references = {{"dimg", 1, {1}}}});
}

struct Seed {
    std::string name;
    Bytes bytes;
};

std::vector<Seed> seeds() {
    const Bytes exif =
        exif_block({.orientation = 6, .focal_length_35mm = 27, .width_px = 24, .height_px = 16});
    const cv::Mat small = picture(24, 16);
    return {
        {"grey.jpg", jpeg_file(small, {.colours = JpegColours::grey, .quality = 40})},
        {"exif.jpg", jpeg_file(small, {.horizontal_sampling = 2, .quality = 40, .exif = exif})},
        {"progressive.jpg", jpeg_file(small, {.scans = JpegScans::progressive, .quality = 40})},
        {"restarts.jpg", jpeg_file(small, {.restart_blocks = 1, .quality = 40})},
        {"inks.jpg", jpeg_file(small, {.colours = JpegColours::ycck_adobe, .quality = 40})},
        {"colours.png", png_file(picture(7, 5))},
        {"interlaced.png", png_file(picture(9, 9, CV_8UC4), PngRows::interlaced)},
        {"deep.png", png_file(picture(5, 5, CV_16UC3), PngRows::plain, exif)},
        {"palette.png", palette_png_file(picture(6, 6, CV_8UC1) & 3, {red, green, blue, yellow}, {0, 128})},
        {"lossy.webp", lossy_webp_file(small)},
        {"lossless.webp", lossless_webp_file(picture(9, 7, CV_8UC4))},
        {"exif.webp", webp_with_exif(lossless_webp_file(picture(9, 7)), {9, 7}, exif)},
        {"turned.heic",
         heic_file(cv::Mat(64, 64, CV_8UC3, cv::Scalar(red)), heif_orientation_rotate_90_cw, exif)},
        {"alpha.heic",
         heic_file(cv::Mat(64, 64, CV_8UC4, cv::Scalar(9, 200, 90, 128)), heif_orientation_normal, {})},
        {"grid.heic", heif_grid()},
        {"copy-of-itself.heic", heif_copy_of_itself()},
        {"larger-than-declared.heic", heif_file({.items = {coded_as(heif_tile(), {10000, 10000})}})},
    };
}

}  // namespace
}  // namespace ridgetally

int main(int argc, char** argv) {
    if (argc != 2) return 1;
    for (const auto& [name, bytes] : ridgetally::seeds()) {
        const auto written = ridgetally::write_file(std::string(argv[1]) + "/" + name, bytes);
        if (!written) {
            std::fprintf(stderr, "%s\n", written.refusal().message.c_str());
            return 1;
        }
    }
    return 0;
}
