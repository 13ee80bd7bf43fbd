#include "lattice/ambiguous.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/decimal.h"
#include "core/units.h"

namespace ridgetally {
namespace {

/// What could be counted by eye to settle it, and how many there are over 10 cm by each reading.
struct Question {
    std::string counted;  ///< "stitches" or "rows"; empty where the rows may run either way
    double ours = 0.0;
    double theirs = 0.0;
    int rival = 0;  ///< number of the other reading for `--reading`; 0: it has none
};

/// One decimal where a maker would see the difference, as on the gauge line of a pattern.
std::string per_10cm(double count) { return fixed(count, 1); }

Question question_of(const Tie& tie, double px_per_mm, const ChooseOptions& options) {
    const auto stitches = [&](double pitch_mm) {
        return span_10cm_mm / pitch_mm * options.stitches_per_repeat;
    };
    const auto rows = [&](double pitch_mm) { return span_10cm_mm / pitch_mm * options.rows_per_repeat; };
    const double own = stitches(tie.reading.stitch_pitch_px / px_per_mm);
    if (tie.against) return {"stitches", own, stitches(tie.against->stitch_pitch_mm), 0};
    const auto other = std::find_if(tie.rivals.begin(), tie.rivals.end(),
                                    [&](const Reading& rival) { return other_stitch(rival, tie.reading); });
    if (other == tie.rivals.end()) {
        if (tie.rivals.empty()) return {};
        return {"rows", rows(tie.reading.row_pitch_px() / px_per_mm),
                rows(tie.rivals.front().row_pitch_px() / px_per_mm), 1};
    }
    const double theirs = stitches(other->stitch_pitch_px / px_per_mm);
    const int number = static_cast<int>(other - tie.rivals.begin()) + 1;
    if (per_10cm(own) == per_10cm(theirs)) return {"", own, theirs, number};
    return {"stitches", own, theirs, number};
}

}  // namespace

Refusal ambiguous(const Tie& tie, double px_per_mm, const ChooseOptions& options) {
    const Question question = question_of(tie, px_per_mm, options);
    const std::string message = "the fabric can be read in more than one way: ";
    const std::string hint = options.source == StitchSource::told
                                 ? "come nearer, with light from the side; or "
                                 : "tell the stitch with --stitch and --worked; or ";
    if (question.counted.empty())
        return {"lattice", "ambiguous", message + "its rows could run either of two ways",
                hint + "tell the way of the rows with --rows"};
    const std::string by_eye = question.rival == 0
                                   ? ""
                                   : "count them by eye: where there are about " + per_10cm(question.theirs) +
                                         ", add --reading " + std::to_string(question.rival) + "; or ";
    return {"lattice", "ambiguous",
            message + "either about " + per_10cm(question.ours) + " or about " + per_10cm(question.theirs) +
                " " + question.counted + " in 10 cm",
            hint + by_eye + "bound even fabric with --area, or tell the way of the rows with --rows"};
}

}  // namespace ridgetally
