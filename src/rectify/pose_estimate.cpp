#include "rectify/pose_estimate.h"

namespace ridgetally {

PoseCovariance pose_part(const cv::Mat_<double>& covariance) {
    PoseCovariance result{};
    for (int i = 0; i < pose_parameters; ++i)
        for (int j = 0; j < pose_parameters; ++j) result[place_of(i, j)] = covariance(i, j);
    return result;
}

}  // namespace ridgetally
