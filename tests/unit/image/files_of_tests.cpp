#include "files_of_tests.h"

#include <algorithm>
#include <cstdlib>

namespace ridgetally::files {
namespace {

/// Writes numbers in the byte order of a TIFF file.
class Tiff {
  public:
    explicit Tiff(ByteOrder order) : order_(order) {}

    void number(std::uint32_t value, int width) {
        for (int i = 0; i < width; ++i) {
            const int shift = 8 * (order_ == ByteOrder::little ? i : width - 1 - i);
            bytes.push_back(static_cast<std::uint8_t>(value >> shift));
        }
    }
    /// A directory entry with one SHORT (type 3) or LONG (type 4), left-justified in its four bytes.
    void entry(std::uint16_t tag, std::uint16_t type, std::uint32_t value) {
        number(tag, 2);
        number(type, 2);
        number(1, 4);
        number(value, type == 3 ? 2 : 4);
        if (type == 3) number(0, 2);
    }

    Bytes bytes;

  private:
    ByteOrder order_;
};

}  // namespace

cv::Mat four_quarters(const cv::Size& size) {
    cv::Mat picture(size, CV_8UC3);
    const int w = size.width / 2;
    const int h = size.height / 2;
    picture(cv::Rect(0, 0, w, h)) = cv::Scalar(red[0], red[1], red[2]);
    picture(cv::Rect(w, 0, w, h)) = cv::Scalar(green[0], green[1], green[2]);
    picture(cv::Rect(0, h, w, h)) = cv::Scalar(blue[0], blue[1], blue[2]);
    picture(cv::Rect(w, h, w, h)) = cv::Scalar(yellow[0], yellow[1], yellow[2]);
    return picture;
}

std::array<cv::Vec3b, 4> quarters_of(const cv::Mat& bgr) {
    const int x = bgr.cols / 4;
    const int y = bgr.rows / 4;
    return {bgr.at<cv::Vec3b>(y, x), bgr.at<cv::Vec3b>(y, 3 * x), bgr.at<cv::Vec3b>(3 * y, x),
            bgr.at<cv::Vec3b>(3 * y, 3 * x)};
}

int difference(const cv::Vec3b& a, const cv::Vec3b& b) {
    int largest = 0;
    for (int c = 0; c < 3; ++c) largest = std::max(largest, std::abs(int{a[c]} - int{b[c]}));
    return largest;
}

Bytes exif_block(const ExifContent& content) {
    constexpr std::uint32_t header_size = 8;
    constexpr std::uint32_t entry_size = 12;
    const bool inner = content.focal_length_35mm || content.width_px || content.height_px;
    const std::uint32_t outer_entries = (content.orientation ? 1U : 0U) + (inner ? 1U : 0U);
    const std::uint32_t inner_entries =
        (content.focal_length_35mm ? 1U : 0U) + (content.width_px ? 1U : 0U) + (content.height_px ? 1U : 0U);

    Tiff tiff(content.order);
    const char mark = content.order == ByteOrder::little ? 'I' : 'M';
    tiff.bytes = {static_cast<std::uint8_t>(mark), static_cast<std::uint8_t>(mark)};
    tiff.number(42, 2);
    tiff.number(header_size, 4);
    tiff.number(outer_entries, 2);
    if (content.orientation) tiff.entry(0x0112, 3, *content.orientation);
    if (inner) tiff.entry(0x8769, 4, header_size + 2 + outer_entries * entry_size + 4);
    tiff.number(0, 4);
    if (!inner) return tiff.bytes;
    tiff.number(inner_entries, 2);
    if (content.width_px) tiff.entry(0xA002, 4, *content.width_px);
    if (content.height_px) tiff.entry(0xA003, 4, *content.height_px);
    if (content.focal_length_35mm) tiff.entry(0xA405, 3, *content.focal_length_35mm);
    tiff.number(0, 4);
    return tiff.bytes;
}

ReadPhotoOptions any_size() {
    ReadPhotoOptions options;
    options.min_megapixels = 0.0;
    options.min_side_px = 1;
    return options;
}

Bytes with_changed_bytes(const Bytes& whole, Random& random) {
    Bytes file = whole;
    const int changes = random.whole(1, 4);
    for (int i = 0; i < changes; ++i)
        file[static_cast<std::size_t>(random.whole(0, static_cast<int>(file.size()) - 1))] =
            static_cast<std::uint8_t>(random.whole(0, 255));
    return file;
}

void put_big(Bytes& bytes, std::size_t value, int width) {
    for (int i = width - 1; i >= 0; --i) bytes.push_back(static_cast<std::uint8_t>(value >> (8 * i)));
}

}  // namespace ridgetally::files
