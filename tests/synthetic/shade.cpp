#include "synthetic/shade.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "synthetic/yarn_surface.h"

namespace ridgetally::synthetic {
namespace {

/// Linear light of an 8-bit sRGB value (IEC 61966-2-1).
std::array<float, 256> linear_table() {
    std::array<float, 256> table{};
    for (std::size_t i = 0; i < table.size(); ++i) {
        const float v = static_cast<float>(i) / 255.0F;
        table[i] = v <= 0.04045F ? v / 12.92F : std::pow((v + 0.055F) / 1.055F, 2.4F);
    }
    return table;
}

Vec3 towards_light(const Light& light) {
    const double a = light.azimuth_deg / degrees_per_radian, e = light.elevation_deg / degrees_per_radian;
    return {std::cos(a) * std::cos(e), std::sin(a) * std::cos(e), std::sin(e)};
}

/// Part of the sun that reaches each place, 0..1, at half the resolution of the height map.
cv::Mat1f sunlight(const Scene& scene, const Projector& projector, const cv::Mat1f& heights) {
    cv::Mat1f half;
    cv::resize(heights, half, {}, 0.5, 0.5, cv::INTER_AREA);
    const Vec3 sun = towards_light(scene.light);
    const Vec3 in_picture = projector.in_camera_axes({sun.x, sun.y, 0.0});
    const double px_per_mm = projector.focal_px() / scene.camera.distance_mm * scene.supersampling * 0.5;
    const double rise = sun.z / std::hypot(sun.x, sun.y);
    double highest = 0.0;
    cv::minMaxLoc(half, nullptr, &highest);
    const double reach_mm = std::min(highest / rise + 1.0, 40.0);
    cv::Mat1f lit = cv::Mat1f::ones(half.size());
    constexpr int steps = 14;
    for (int i = 1; i <= steps; ++i) {
        const double far_mm = reach_mm * std::pow(static_cast<double>(i) / steps, 1.5);
        const cv::Matx23d shift{1, 0, in_picture.x * far_mm * px_per_mm / std::hypot(sun.x, sun.y),
                                0, 1, in_picture.y * far_mm * px_per_mm / std::hypot(sun.x, sun.y)};
        cv::Mat1f there;
        cv::warpAffine(half, there, shift, half.size(), cv::INTER_NEAREST | cv::WARP_INVERSE_MAP,
                       cv::BORDER_REPLICATE);
        const auto needed = static_cast<float>(far_mm * rise);
        const auto soft = static_cast<float>(0.15 + far_mm * 0.05 * scene.light.shadow_softness_mm);
        for (int y = 0; y < half.rows; ++y) {
            float* out = lit[y];
            const float *h = half[y], *t = there[y];
            for (int x = 0; x < half.cols; ++x)
                out[x] = std::min(out[x], std::clamp(1.0F - (t[x] - h[x] - needed) / soft, 0.0F, 1.0F));
        }
    }
    const double blur = std::max(0.6, 0.25 * scene.light.shadow_softness_mm * px_per_mm);
    cv::GaussianBlur(lit, lit, {}, blur);
    return lit;
}

/// Sky seen from each place, 0..1: hollows see less of it. Half resolution.
cv::Mat1f openness(const Scene& scene, const Projector& projector, const cv::Mat1f& heights) {
    cv::Mat1f half, near_mean, far_mean;
    cv::resize(heights, half, {}, 0.5, 0.5, cv::INTER_AREA);
    const double px_per_mm = projector.focal_px() / scene.camera.distance_mm * scene.supersampling * 0.5;
    const int near_px = std::max(1, cvRound(0.8 * px_per_mm)), far_px = std::max(2, cvRound(2.5 * px_per_mm));
    cv::blur(half, near_mean, {2 * near_px + 1, 2 * near_px + 1});
    cv::blur(half, far_mean, {2 * far_px + 1, 2 * far_px + 1});
    cv::Mat1f out(half.size());
    for (int y = 0; y < half.rows; ++y)
        for (int x = 0; x < half.cols; ++x) {
            const float deep = 0.45F * std::max(0.0F, near_mean(y, x) - half(y, x)) +
                               0.22F * std::max(0.0F, far_mean(y, x) - half(y, x));
            out(y, x) = 1.0F / (1.0F + 1.3F * deep);
        }
    return out;
}

struct Lamp {
    Vec3 sun;  ///< camera axes
    float ambient, sun_strength;
    cv::Point2f glare_at;
    float glare_width, glare;
    cv::Vec2f gradient;
};

Lamp lamp_of(const Scene& scene, const Projector& projector) {
    const Light& light = scene.light;
    const Vec3 sun = towards_light(light);
    Lamp lamp{projector.in_camera_axes(sun),
              static_cast<float>(light.ambient),
              0.0F,
              {},
              0.0F,
              static_cast<float>(light.glare),
              {}};
    lamp.sun_strength = static_cast<float>((1.0 - light.ambient) / std::max(0.35, sun.z));
    const Vec3 flat = projector.in_camera_axes({sun.x, sun.y, 0.0});
    const auto w = static_cast<float>(scene.camera.width_px), h = static_cast<float>(scene.camera.height_px);
    const auto fx = static_cast<float>(flat.x), fy = static_cast<float>(flat.y);
    lamp.glare_at = {w * (0.5F + 0.4F * fx), h * (0.5F + 0.4F * fy)};
    lamp.glare_width = 0.16F * std::hypot(w, h);
    const auto g = static_cast<float>(light.gradient);
    lamp.gradient = {g * fx / w, g * fy / h};
    return lamp;
}

/// Light of one sample of yarn, in place of the flat surface's.
class YarnLight {
  public:
    YarnLight(const Scene& scene, const std::vector<Tube>& tubes, const TubeLayer& layer, const Lamp& lamp)
        : tubes_(tubes), layer_(layer), lamp_(lamp) {
        for (const Fabric& f : scene.fabrics) surfaces_.emplace_back(f.yarn, f.seed);
        if (surfaces_.empty()) surfaces_.emplace_back(Yarn{}, 1);
    }

    /// Colour factor (times 8-bit colour) and direct and ambient light of a sample.
    struct Reply {
        const Colour* colour;
        float albedo, sun, sky;
    };
    [[nodiscard]] Reply at(const TubeSample& sample) const {
        const TubeSegment& s = layer_.segments[static_cast<std::size_t>(sample.segment)];
        const Tube& tube = tubes_[static_cast<std::size_t>(s.tube)];
        float dx = s.bx - s.ax, dy = s.by - s.ay;
        const float norm = 1.0F / std::max(std::sqrt(dx * dx + dy * dy), 1e-3F);
        dx *= norm, dy *= norm;
        const float across = std::clamp(dx * sample.qy - dy * sample.qx, -0.999F, 0.999F);
        const float around = std::asin(across);
        const float along = (s.along_a + sample.t * (s.along_b - s.along_a)) / s.radius_mm;
        const SurfaceDetail d =
            tube.yarn == no_yarn
                ? SurfaceDetail{}
                : surfaces_[static_cast<std::size_t>(tube.yarn) % surfaces_.size()].at(around, along);
        // Across the yarn the picture-plane axis is (-dy, dx); a slope turns the normal against it.
        const float tilt = std::sqrt(1.0F - across * across);
        float nx = sample.qx - d.slope_around * tilt * -dy - d.slope_along * dx;
        float ny = sample.qy - d.slope_around * tilt * dx - d.slope_along * dy;
        float nz = std::sqrt(std::max(0.0F, 1.0F - sample.qx * sample.qx - sample.qy * sample.qy)) +
                   d.slope_around * across;
        const float inv = 1.0F / std::max(std::sqrt(nx * nx + ny * ny + nz * nz), 1e-3F);
        nx *= inv, ny *= inv, nz *= inv;
        const float facing = nx * static_cast<float>(lamp_.sun.x) + ny * static_cast<float>(lamp_.sun.y) +
                             nz * static_cast<float>(lamp_.sun.z);
        // Fibres scatter: the terminator is soft.
        const float sun = std::max(0.0F, (facing + 0.15F) / 1.15F);
        return {&tube.colour, d.albedo * tube.shade, sun, 0.55F + 0.45F * nz};
    }

  private:
    const std::vector<Tube>& tubes_;
    const TubeLayer& layer_;
    const Lamp& lamp_;
    std::vector<YarnSurface> surfaces_;
};

}  // namespace

void lay_tubes(Surfaces& surfaces, const TubeLayer& layer) {
    for (int y = layer.roi.y; y < layer.roi.y + layer.roi.height; ++y)
        for (int x = layer.roi.x; x < layer.roi.x + layer.roi.width; ++x) {
            const TubeSample& sample = layer.at(x, y);
            if (sample.segment < 0) continue;
            const TubeSegment& s = layer.segments[static_cast<std::size_t>(sample.segment)];
            const float centre = s.height_a + sample.t * (s.height_b - s.height_a);
            surfaces.height_mm(y, x) =
                centre +
                s.radius_mm * std::sqrt(std::max(0.0F, 1.0F - sample.qx * sample.qx - sample.qy * sample.qy));
            surfaces.gloss(y, x) = 0;
        }
}

cv::Mat3f shaded(const Scene& scene, const Projector& projector, const Surfaces& surfaces,
                 const TubeLayer& layer, const std::vector<Tube>& tubes) {
    const auto linear = linear_table();
    const cv::Mat1f sun_map = sunlight(scene, projector, surfaces.height_mm);
    const cv::Mat1f sky_map = openness(scene, projector, surfaces.height_mm);
    const Lamp lamp = lamp_of(scene, projector);
    const YarnLight yarn(scene, tubes, layer, lamp);
    const int ss = scene.supersampling;
    cv::Mat3f out(scene.camera.height_px, scene.camera.width_px, cv::Vec3f(0, 0, 0));
    const float share = static_cast<float>(scene.light.exposure) / static_cast<float>(ss * ss);
    const auto flat_sun = static_cast<float>(std::max(0.0, lamp.sun.z));
    out.forEach([&](cv::Vec3f& pixel, const int* at) {
        const int row = at[0], column = at[1];
        const cv::Point2f off =
            cv::Point2f(static_cast<float>(column), static_cast<float>(row)) - lamp.glare_at;
        const float glare =
            lamp.glare * std::exp(-off.dot(off) / (2.0F * lamp.glare_width * lamp.glare_width));
        for (int k = 0; k < ss * ss; ++k) {
            const int x = column * ss + k % ss, y = row * ss + k / ss;
            const int hx = std::min(x / 2, sun_map.cols - 1), hy = std::min(y / 2, sun_map.rows - 1);
            const float sun = lamp.sun_strength * sun_map(hy, hx), sky = lamp.ambient * sky_map(hy, hx);
            const TubeSample* sample = layer.roi.contains({x, y}) ? &layer.at(x, y) : nullptr;
            if (sample != nullptr && sample->segment >= 0 && surfaces.gloss(y, x) == 0) {
                const auto r = yarn.at(*sample);
                const float light = r.albedo * (sun * r.sun + sky * r.sky);
                for (int c = 0; c < 3; ++c)
                    pixel[c] += light * linear[cv::saturate_cast<uchar>((*r.colour)[c])];
            } else {
                const float light = sun * flat_sun + sky;
                const float shine = glare * static_cast<float>(surfaces.gloss(y, x)) / 255.0F;
                for (int c = 0; c < 3; ++c) pixel[c] += light * linear[surfaces.colour(y, x)[c]] + shine;
            }
        }
        const float fall =
            1.0F + lamp.gradient[0] * (static_cast<float>(column) - 0.5F * static_cast<float>(out.cols)) +
            lamp.gradient[1] * (static_cast<float>(row) - 0.5F * static_cast<float>(out.rows));
        for (int c = 0; c < 3; ++c) pixel[c] *= share * fall * scene.light.tint[c];
    });
    return out;
}

}  // namespace ridgetally::synthetic
