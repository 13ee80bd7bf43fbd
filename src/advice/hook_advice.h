#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/derivation.h"
#include "advice/hook_response.h"
#include "advice/maker_gauge.h"
#include "catalog/catalog.h"
#include "core/outcome.h"
#include "core/stitch.h"

namespace ridgetally {

/// Size of the pattern's piece at the wanted gauge; unknown sides are absent.
struct PieceSize {
    std::optional<double> width_mm;
    std::optional<double> height_mm;
};

/// What the maker wants to reach and has at hand.
struct HookRequest {
    PatternGauge want;
    std::optional<double> hook_mm;  ///< that the swatch was made with; without it no other hook can be named
    std::vector<double> own_hooks_mm;  ///< rising; empty: the widely sold hooks of the catalogue
    std::optional<double>
        tolerance;  ///< relative size error that is good enough; none: that of the catalogue
    PieceSize piece;
    std::optional<StitchFamily> stitch;  ///< where known
    std::optional<int> yarn_category;    ///< 0 to 7 where known: shows up knit gauges
    HookRecord record;
};

/// How far the size of a piece would be off: made over wanted, less one, with its 95 % interval. Above zero:
/// the stitches are too large.
struct SizeError {
    double value = 0.0;
    double low95 = 0.0;
    double high95 = 0.0;
};

/// What a tolerance and a size error come to. `unclear`: the interval reaches beyond the tolerance on both
/// sides.
enum class Judgement { within, too_large, too_small, unclear };

enum class HookVerdict { keep, larger, smaller, unsure };
[[nodiscard]] std::string_view key_of(HookVerdict verdict);

/// What to do about the rows: nothing, draw the first loop up higher (rows too short), keep it lower (rows
/// too tall), or measure better.
enum class RowVerdict { keep, taller, shorter, unsure };
[[nodiscard]] std::string_view key_of(RowVerdict verdict);

/// A hook of the maker's set and what to expect of it.
struct HookTrial {
    double hook_mm = 0.0;
    Measured stitches_per_100mm;
    double chance = 0.0;  ///< that a new swatch lands within the tolerance
};

/// Rows, judged apart from the stitches.
struct RowAdvice {
    RowVerdict verdict = RowVerdict::keep;
    SizeError error;
    double rows_for_pattern_span =
        0.0;  ///< rows of the maker as tall as the rows the pattern counts over its span
};

/// What the piece would measure if nothing changed.
struct IfUnchanged {
    double wanted_width_mm = 0.0;  ///< of the piece, or the span of the pattern's gauge
    Measured width_mm;
    std::optional<double> wanted_height_mm;
    std::optional<Measured> height_mm;
    double stitches_for_width = 0.0;  ///< of the maker, for the wanted width: keep the hook, change the count
};

struct HookAdvice {
    HookVerdict verdict = HookVerdict::unsure;
    SizeError error;  ///< of the width
    double tolerance = 0.0;
    std::optional<HookTrial> trial;           ///< the hook to try first; only for larger and smaller
    std::optional<HookTrial> unchanged_hook;  ///< the hook in use, where told
    double chance_within_tolerance = 0.0;     ///< of the hook to try, or of staying where none is named
    std::optional<double> ideal_hook_mm;      ///< whatever the set has; where the hook in use was told
    HookResponse response;
    std::optional<RowAdvice> rows;
    IfUnchanged if_unchanged;
    std::vector<Reason> reasons;
    Workings workings;
};

/// Judges a gauge against a target. No change is advised unless the whole 95 % interval lies outside the
/// tolerance; more stitches than wanted means stitches too small, hence a larger hook. Refusal: stage
/// "advice", code "knit-gauge" where the target is one of knitting (check_target). Throws
/// std::invalid_argument for a gauge, hook or tolerance not above zero.
[[nodiscard]] Outcome<HookAdvice> advise_hook(const MadeGauge& made, const HookRequest& request,
                                              const Catalog& catalog);

/// Whether the target may be one for crochet; none where it may. A gauge called knit is refused for every
/// crochet stitch; so is one not called crochet that lies in the knit range of the yarn's category and above
/// its crochet range (Standard Yarn Weight System).
[[nodiscard]] std::optional<Refusal> check_target(const HookRequest& request, const Catalog& catalog);

/// How the size error compares with the tolerance.
[[nodiscard]] Judgement judge(const SizeError& error, double tolerance);

/// Size error of made counts against wanted ones, both over the same length.
[[nodiscard]] SizeError size_error(const Measured& made_count, double wanted_count);

/// What may be wrong besides the hook: large misses, another stitch, US and UK terms, a knit gauge.
[[nodiscard]] std::vector<Reason> suspicions(const MadeGauge& made, const HookRequest& request,
                                             const SizeError& error, const Catalog& catalog);

}  // namespace ridgetally
