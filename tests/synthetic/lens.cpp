#include "synthetic/lens.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "core/random.h"
#include "core/units.h"

namespace ridgetally::synthetic {
namespace {

cv::Mat3f through_lens(const cv::Mat3f& light, const Projector& projector) {
    cv::Mat2f from(light.size());
    for (int y = 0; y < from.rows; ++y)
        for (int x = 0; x < from.cols; ++x) {
            const cv::Point2d p = projector.undistorted(cv::Point2d(x, y));
            from(y, x) = {static_cast<float>(p.x), static_cast<float>(p.y)};
        }
    cv::Mat out;
    cv::remap(light, out, from, cv::noArray(), cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    return out;
}

cv::Mat1f smear(double length_px, double angle_deg) {
    const int half = cvCeil(length_px / 2.0) + 1;
    cv::Mat1f kernel = cv::Mat1f::zeros(2 * half + 1, 2 * half + 1);
    const double c = std::cos(angle_deg / degrees_per_radian), s = std::sin(angle_deg / degrees_per_radian);
    for (double d = -length_px / 2.0; d <= length_px / 2.0; d += 0.1) {
        const double x = half + d * c, y = half + d * s;
        const int x0 = cvFloor(x), y0 = cvFloor(y);
        const auto fx = static_cast<float>(x - x0), fy = static_cast<float>(y - y0);
        kernel(y0, x0) += (1 - fx) * (1 - fy);
        kernel(y0, x0 + 1) += fx * (1 - fy);
        kernel(y0 + 1, x0) += (1 - fx) * fy;
        kernel(y0 + 1, x0 + 1) += fx * fy;
    }
    return kernel / cv::sum(kernel)[0];
}

/// sRGB value 0..255 of linear light (IEC 61966-2-1), tabulated.
class SrgbCurve {
  public:
    SrgbCurve() : table_(4097) {
        for (std::size_t i = 0; i < table_.size(); ++i) {
            const double v = static_cast<double>(i) / 4096.0;
            table_[i] = static_cast<float>(
                255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055));
        }
    }
    [[nodiscard]] float operator()(float v) const {
        const float at = std::clamp(v, 0.0F, 0.9999F) * 4096.0F;
        const auto i = static_cast<std::size_t>(at);
        return table_[i] + (at - static_cast<float>(i)) * (table_[i + 1] - table_[i]);
    }

  private:
    std::vector<float> table_;
};

/// A long list of normal deviates to draw from: many times faster than one by one, and as reproducible.
class NoisePool {
  public:
    explicit NoisePool(std::uint64_t seed) : random_(seed), pool_(1 << 15) {
        for (float& v : pool_) v = static_cast<float>(random_.normal(0.0, 1.0));
    }
    float next() {
        if (left_ == 0) {
            where_ = static_cast<std::size_t>(random_.next()) & (pool_.size() - 1);
            left_ = random_.whole(300, 3000);
        }
        --left_;
        where_ = (where_ + 1) & (pool_.size() - 1);
        return pool_[where_];
    }

  private:
    Random random_;
    std::vector<float> pool_;
    std::size_t where_ = 0;
    int left_ = 0;
};

}  // namespace

cv::Mat3b developed(const Scene& scene, const Projector& projector, cv::Mat3f light) {
    const Sensor& sensor = scene.sensor;
    if (scene.camera.k1 != 0.0) light = through_lens(light, projector);
    if (sensor.motion_px > 0.3) cv::filter2D(light, light, -1, smear(sensor.motion_px, sensor.motion_deg));
    if (sensor.blur_px > 0.15) cv::GaussianBlur(light, light, {}, sensor.blur_px);
    const SrgbCurve curve;
    NoisePool noise(scene.seed * 13 + 7);
    const double half_diagonal = 0.5 * std::hypot(light.cols, light.rows);
    cv::Mat3f tone(light.size());
    for (int y = 0; y < light.rows; ++y) {
        for (int x = 0; x < light.cols; ++x) {
            const double dx = x - 0.5 * light.cols, dy = y - 0.5 * light.rows;
            const auto corner = static_cast<float>(1.0 - sensor.vignette * (dx * dx + dy * dy) /
                                                             (half_diagonal * half_diagonal));
            for (int c = 0; c < 3; ++c) {
                const float v = curve(light(y, x)[c] * corner);
                tone(y, x)[c] =
                    v + static_cast<float>(sensor.noise) * (1.3F - 0.6F * v / 255.0F) * noise.next();
            }
        }
    }
    if (sensor.sharpen > 0.0) {
        cv::Mat soft;
        cv::GaussianBlur(tone, soft, {}, 1.2);
        cv::addWeighted(tone, 1.0 + sensor.sharpen, soft, -sensor.sharpen, 0.0, tone);
    }
    cv::Mat out;
    tone.convertTo(out, CV_8U);
    return out;
}

}  // namespace ridgetally::synthetic
