#pragma once

namespace ridgetally {

/// What the confidence is computed from; all between 0 and about 1.
struct ConfidenceEvidence {
    double score = 0.0;        ///< of the chosen reading in the search
    double final_score = 0.0;  ///< of the last, larger tile; 0 where it disagrees
    double rival_score = 0.0;  ///< of the best other reading
    double repeats = 0.0;      ///< stitches or rows in view, whichever are fewer
};

/// Chance that both pitches are within 15 % of the truth, the stitch not being told. Logistic in the
/// evidence, fitted to rendered fabric that was not trained on (scripts/train/calibrate.py; figures in the
/// model card).
[[nodiscard]] double reading_confidence(const ConfidenceEvidence& evidence);

}  // namespace ridgetally
