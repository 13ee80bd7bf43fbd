#include "recogniser/confidence.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

// scripts/train/calibrate.py
constexpr double offset = -5.5;
constexpr double per_score = 3.0;
constexpr double per_final_score = 7.4;
constexpr double per_rival_score = -2.6;
constexpr double repeats_that_show = 3.0;  // one period in view shows no repeat at all, three do

}  // namespace

double reading_confidence(const ConfidenceEvidence& e) {
    const double x =
        offset + per_score * e.score + per_final_score * e.final_score + per_rival_score * e.rival_score;
    const double enough = std::clamp((e.repeats - 1.0) / (repeats_that_show - 1.0), 0.0, 1.0);
    return enough / (1.0 + std::exp(-x));
}

}  // namespace ridgetally
