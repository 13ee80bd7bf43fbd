#include "webp_files.h"

#include <webp/encode.h>

namespace ridgetally::files {
namespace {

Bytes owned(std::uint8_t* data, std::size_t size) {
    Bytes bytes(data, data + size);
    WebPFree(data);
    return bytes;
}

void put_number(Bytes& bytes, std::size_t value, int width) {
    for (int i = 0; i < width; ++i) bytes.push_back(static_cast<std::uint8_t>(value >> (8 * i)));
}

}  // namespace

Bytes lossless_webp_file(const cv::Mat& picture) {
    std::uint8_t* data = nullptr;
    const auto encode = picture.channels() == 4 ? WebPEncodeLosslessBGRA : WebPEncodeLosslessBGR;
    const std::size_t size =
        encode(picture.data, picture.cols, picture.rows, static_cast<int>(picture.step), &data);
    return owned(data, size);
}

Bytes lossy_webp_file(const cv::Mat& bgr) {
    std::uint8_t* data = nullptr;
    const std::size_t size =
        WebPEncodeBGR(bgr.data, bgr.cols, bgr.rows, static_cast<int>(bgr.step), 95.0F, &data);
    return owned(data, size);
}

Bytes webp_with_exif(const Bytes& simple, const cv::Size& size, const Bytes& exif) {
    Bytes body = {'W', 'E', 'B', 'P', 'V', 'P', '8', 'X'};
    put_number(body, 10, 4);
    put_number(body, 0x08, 4);
    put_number(body, static_cast<std::size_t>(size.width - 1), 3);
    put_number(body, static_cast<std::size_t>(size.height - 1), 3);
    body.insert(body.end(), simple.begin() + 12, simple.end());
    for (const char c : {'E', 'X', 'I', 'F'}) body.push_back(static_cast<std::uint8_t>(c));
    put_number(body, exif.size(), 4);
    body.insert(body.end(), exif.begin(), exif.end());
    if (exif.size() % 2 == 1) body.push_back(0);
    Bytes file = {'R', 'I', 'F', 'F'};
    put_number(file, body.size(), 4);
    file.insert(file.end(), body.begin(), body.end());
    return file;
}

}  // namespace ridgetally::files
