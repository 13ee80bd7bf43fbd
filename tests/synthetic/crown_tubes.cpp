#include "synthetic/crown_tubes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "synthetic/stitch_paths.h"
#include "synthetic/weaving.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;
/// Yarn radii a strand rises for one of stitch_paths (strand_height_mm).
constexpr double pressed_heights = 0.6;

class RoundWeaver {
  public:
    RoundWeaver(const Fabric& fabric, int yarn, double base_mm)
        : fabric_(fabric),
          crown_(*fabric.crown),
          grid_(fabric),
          random_(fabric.seed * 7 + 3),
          base_mm_(base_mm),
          spool_(fabric.yarn, yarn, fabric.yarn_radius_ratio * fabric.stitch_pitch_mm) {}

    void disc() {
        start_ring();
        for (int r = 0; r < static_cast<int>(crown_.rounds.size()); ++r) {
            const CrownRound& round = crown_.rounds[static_cast<std::size_t>(r)];
            for (int i = 0; i < round.stitches; ++i) stitch(i, r, round.family);
        }
    }

    void loose_ends() {
        for (int i = 0; i < crown_.rim_loops; ++i) rim_loop();
        if (!fabric_.tail) return;
        const int last = static_cast<int>(crown_.rounds.size()) - 1;
        const Vec3 at = grid_.at(last, 0, 0.0, 0.9);
        const double outward = std::atan2(at.y - fabric_.centre_y_mm, at.x - fabric_.centre_x_mm);
        spool_.add_tail(at, outward + random_.uniform(-1.2, 1.2), base_mm_, spool_.colour_of(last), random_);
    }

    std::vector<Tube> take() { return spool_.take(); }

  private:
    void strand(const StrandPath& path, int stitch, int round, const Tension& tension) {
        std::vector<Vec3> points;
        for (const Vec3& p : smooth_curve(path, 4)) {
            const double across = p.x + fabric_.lean * (p.y - 0.5) + tension.du - tension.turn * (p.y - 0.5);
            const double up = p.y + tension.dv + tension.turn * (p.x - 0.5);
            Vec3 at = grid_.at(round, stitch, across, up);
            at.z += base_mm_ + strand_height_mm(p.z, tension.height, spool_.radius_mm());
            points.push_back(at);
        }
        spool_.add(points, spool_.colour_of(round), tension.thickness, random_);
    }

    void stitch(int i, int round, StitchFamily family) {
        const Tension tension = drawn_tension(fabric_, random_);
        const LoopRidge ridge = free_loops(family, Worked::round, Face::front);
        for (const Strand& one : stitch_strands(family, Face::front, ridge, fabric_.shape)) {
            StrandPath path = one.path;
            for (Vec3& p : path) {
                p.x += random_.normal(0.0, 0.15 * fabric_.unevenness);
                p.y += random_.normal(0.0, 0.15 * fabric_.unevenness);
            }
            strand(raised(path, round, family), i, round, tension);
        }
    }

    /// The last round's free loops stand up, and as high as the ridge where there is one.
    [[nodiscard]] StrandPath raised(StrandPath path, int round, StitchFamily family) const {
        if (round + 1 < static_cast<int>(crown_.rounds.size())) return path;
        const bool ridge = family == StitchFamily::sc_blo || family == StitchFamily::hdc_blo;
        for (Vec3& p : path) {
            const double free = std::clamp(2.5 * (p.y - 0.6), 0.0, 1.0);
            p.z += free * (crown_.rim_lift + (ridge && p.z < 0.0 ? 2.0 : 0.0)) / pressed_heights;
        }
        return path;
    }

    /// The ring the first round is worked into: yarn wound round twice.
    void start_ring() {
        std::vector<Vec3> points;
        for (int k = 0; k <= 48; ++k) {
            const double turns = k / 24.0;
            Vec3 at = grid_.ring_at(turns);
            at.z = base_mm_ + spool_.radius_mm() * (1.2 + 0.5 * std::sin(2.0 * pi * 0.5 * turns));
            points.push_back(at);
        }
        spool_.add(points, spool_.colour_of(0), 1.0, random_);
    }

    /// A loop pulled out of the last round.
    void rim_loop() {
        const int last = static_cast<int>(crown_.rounds.size()) - 1;
        const int i = random_.whole(0, crown_.rounds.back().stitches - 1);
        const double out = random_.uniform(0.6, 1.6);
        const double width = random_.uniform(0.5, 1.1);
        strand({{0.2, 0.9, 0.0},
                {0.5 - width, 1.0 + 0.6 * out, 0.6},
                {0.5, 1.0 + out, 0.4},
                {0.5 + width, 1.0 + 0.6 * out, 0.6},
                {0.8, 0.9, 0.0}},
               i, last, {});
    }

    const Fabric& fabric_;
    const Crown& crown_;
    CrownGrid grid_;
    Random random_;
    double base_mm_;
    Spool spool_;
};

/// The tubes as seen from straight above, filled to the outer outline; `px_per_mm` and the middle as given.
cv::Mat seen_from_above(const std::vector<Tube>& tubes, const Fabric& fabric, double px_per_mm, int side) {
    cv::Mat mask = cv::Mat::zeros(side, side, CV_8U);
    constexpr int shift = 4;
    const auto fine = [&](double mm, double centre_mm) {
        return static_cast<int>(std::lround((((mm - centre_mm) * px_per_mm) + 0.5 * side) * (1 << shift)));
    };
    for (const Tube& tube : tubes) {
        for (std::size_t i = 0; i + 1 < tube.nodes.size(); ++i) {
            const Vec3 a = tube.nodes[i].at, b = tube.nodes[i + 1].at;
            const double radius = 0.5 * (tube.nodes[i].radius_mm + tube.nodes[i + 1].radius_mm);
            constexpr int steps = 4;
            for (int k = 0; k <= steps; ++k) {
                const Vec3 p = between(a, b, static_cast<double>(k) / steps);
                cv::circle(mask, {fine(p.x, fabric.centre_x_mm), fine(p.y, fabric.centre_y_mm)},
                           static_cast<int>(std::lround(radius * px_per_mm * (1 << shift))), 255, cv::FILLED,
                           cv::LINE_8, shift);
            }
        }
    }
    return mask;
}

std::vector<cv::Point> outer_contour(const cv::Mat& mask) {
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(mask, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    return *std::max_element(contours.begin(), contours.end(), [](const auto& a, const auto& b) {
        return cv::contourArea(a) < cv::contourArea(b);
    });
}

}  // namespace

std::vector<Tube> crown_tubes(const Fabric& fabric, int yarn_index, double base_mm) {
    RoundWeaver weaver(fabric, yarn_index, base_mm);
    weaver.disc();
    weaver.loose_ends();
    return weaver.take();
}

CrownTruth crown_truth(const Fabric& fabric) {
    RoundWeaver weaver(fabric, 0, 0.0);
    weaver.disc();
    constexpr double px_per_mm = 8.0;
    const double reach_mm = 1.25 * CrownGrid(fabric).radius_mm() + 6.0;
    const int side = static_cast<int>(2.0 * reach_mm * px_per_mm);
    const cv::Mat mask = seen_from_above(weaver.take(), fabric, px_per_mm, side);
    const auto contour = outer_contour(mask);
    cv::Mat filled = cv::Mat::zeros(mask.size(), CV_8U);
    cv::drawContours(filled, std::vector<std::vector<cv::Point>>{contour}, 0, 255, cv::FILLED);

    CrownTruth truth;
    truth.rounds = static_cast<int>(fabric.crown->rounds.size());
    for (const auto& round : fabric.crown->rounds) truth.stitches.push_back(round.stitches);
    truth.diameter_mm = 2.0 * std::sqrt(cv::countNonZero(filled) / pi) / px_per_mm;
    truth.diameter_min_mm = 1e300;
    for (int deg = 0; deg < 180; ++deg) {
        const double c = std::cos(deg / degrees_per_radian), s = std::sin(deg / degrees_per_radian);
        double low = 1e300, high = -1e300;
        for (const auto& p : contour) {
            low = std::min(low, c * p.x + s * p.y);
            high = std::max(high, c * p.x + s * p.y);
        }
        const double width_mm = (high - low + 1.0) / px_per_mm;
        truth.diameter_min_mm = std::min(truth.diameter_min_mm, width_mm);
        truth.diameter_max_mm = std::max(truth.diameter_max_mm, width_mm);
    }
    for (const auto& p : contour)
        truth.outline_mm.emplace_back(fabric.centre_x_mm + (p.x - 0.5 * side) / px_per_mm,
                                      fabric.centre_y_mm + (p.y - 0.5 * side) / px_per_mm);
    return truth;
}

}  // namespace ridgetally::synthetic
