#include "recogniser/confidence.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

// scripts/train/calibrate.py
constexpr double offset = -4.0;
constexpr double per_score = 5.0;
constexpr double per_final_score = 5.0;
constexpr double per_rival_score = -3.0;
constexpr double repeats_that_show = 3.0;  // with fewer periods in view nothing shows that they repeat

}  // namespace

double reading_confidence(const ConfidenceEvidence& e) {
    const double x =
        offset + per_score * e.score + per_final_score * e.final_score + per_rival_score * e.rival_score;
    const double enough = std::clamp(e.repeats / repeats_that_show, 0.0, 1.0);
    return enough / (1.0 + std::exp(-x));
}

}  // namespace ridgetally
