#pragma once

#include <vector>

#include "core/stitch.h"
#include "lattice/autocorrelation.h"

namespace ridgetally {

/// What published gauges say about one stitch family worked one way.
struct FamilyPrior {
    StitchFamily family = StitchFamily::sc;
    double height_over_width = 1.0;
    double log_std = 0.1;  ///< standard deviation of ln(height / width) between makers
    /// 1 where rows show as continuous lines (crochet), -1 where columns do (knit stockinette), 0 where
    /// neither.
    double row_lines = 1.0;
    /// Rows after which the picture repeats: 1, or 2 where faces alternate.
    std::vector<int> rows_per_period;
};

/// One way to read the texture: a stitch pitch along the rows, a period across them, and how many rows that
/// is.
struct Reading {
    double row_direction_rad = 0.0;  ///< of a row in the picture, clockwise (y down)
    double stitch_pitch_px = 0.0;
    double period_px = 0.0;  ///< perpendicular to the rows
    int rows_per_period = 1;
    StitchFamily family = StitchFamily::sc;  ///< whose prior it was scored with
    double stitch_score = 0.0;               ///< comb score along the rows, about 0 for noise
    double row_score = 0.0;                  ///< comb score across the rows
    double line_score = 0.0;                 ///< agreement along minus across the rows, whatever the lag
    double log_prior = 0.0;                  ///< of height over width, 0 at the published mean
    double score = 0.0;                      ///< all together

    [[nodiscard]] double row_pitch_px() const { return period_px / rows_per_period; }
};

/// Whether two readings differ in the stitch pitch, or in the row pitch, by more than the same period
/// measured twice. Readings whose rows run across each other's differ in the stitch even where both pitches
/// are alike.
[[nodiscard]] bool other_stitch(const Reading& a, const Reading& b);
[[nodiscard]] bool other_row(const Reading& a, const Reading& b);

struct SearchOptions {
    std::vector<double> row_directions_rad;  ///< to try
    double least_stitch_px = 10.0;
    double most_stitch_px = 80.0;
    double most_period_px = 160.0;
    std::vector<FamilyPrior> priors;  ///< of the told stitch, or of all
};

/// All readings worth keeping, best first; those of nearly equal pitches are merged. Joint search (design
/// notes in DEVELOPERS.md): a comb of the first three multiples along the row direction against the half-way
/// lags in the manner of first and prime harmonics (A. Camacho, SWIPE', PhD thesis, University of Florida,
/// 2007), the same across the rows after the sideways shift of each row has been let go, and the published
/// height over width.
[[nodiscard]] std::vector<Reading> search_readings(const Autocorrelation& texture,
                                                   const SearchOptions& options);

}  // namespace ridgetally
