#include "report/draw/canvas.h"

#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally {

cv::Mat reduced_photo(const cv::Mat& photo_bgr, int long_side_px) {
    const int long_side = std::max(photo_bgr.cols, photo_bgr.rows);
    if (long_side <= long_side_px) return photo_bgr;
    const double factor = static_cast<double>(long_side_px) / long_side;
    cv::Mat reduced;
    const cv::Size size(std::max(1, cvRound(photo_bgr.cols * factor)),
                        std::max(1, cvRound(photo_bgr.rows * factor)));
    cv::resize(photo_bgr, reduced, size, 0.0, 0.0, cv::INTER_AREA);
    return reduced;
}

Canvas canvas_over(const cv::Mat& photo_bgr, int photo_width_px, int long_side_px) {
    if (photo_bgr.empty() || photo_bgr.type() != CV_8UC3 || photo_width_px <= 0 || long_side_px <= 0) {
        throw std::invalid_argument("the annotated picture needs a colour photo and its width");
    }
    Canvas canvas;
    canvas.picture = reduced_photo(photo_bgr, long_side_px);
    if (canvas.picture.data == photo_bgr.data) canvas.picture = photo_bgr.clone();
    canvas.px_per_photo_px = static_cast<double>(canvas.picture.cols) / photo_width_px;
    return canvas;
}

}  // namespace ridgetally
