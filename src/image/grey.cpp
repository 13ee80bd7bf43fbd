#include "image/grey.h"

#include <opencv2/imgproc.hpp>

namespace ridgetally {

cv::Mat grey_of(const cv::Mat& bgr) {
    cv::Mat grey;
    cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
    return grey;
}

}  // namespace ridgetally
