#pragma once

#include <string>
#include <vector>

#include "advice/hat_plan.h"
#include "report/advice.h"
#include "report/document.h"
#include "report/terms.h"

namespace ridgetally {

struct HatOptions {
    SizeUnit units = SizeUnit::cm;
    Terms terms = Terms::us;
    Why why = Why::hidden;
};

/// Hats planned with one gauge.
struct HatsPlanned {
    HatGauge gauge;
    HatRequest request;
    std::vector<HatPlan> hats;
    std::vector<Caution> cautions;
};

/// What is worked in a round, in abbreviations: "6 sc in a start ring", "*1 sc, inc* 6 times", "2 sc in each
/// stitch".
[[nodiscard]] std::string round_words(const CrownRound& round, const std::string& abbreviation);

/// One hat: every round. Several: side by side, sizes and counts.
[[nodiscard]] std::string hats_text(const HatsPlanned& planned, const Catalog& catalog,
                                    const HatOptions& options);
[[nodiscard]] Document hats_document(const HatsPlanned& planned, const Catalog& catalog,
                                     const HatOptions& options);

/// The reverse question.
[[nodiscard]] std::string head_text(const HeadForStitches& answer, const HatGauge& gauge,
                                    const std::vector<Caution>& cautions, const Catalog& catalog,
                                    const HatOptions& options);
[[nodiscard]] Document head_document(const HeadForStitches& answer, const HatGauge& gauge,
                                     const std::vector<Caution>& cautions, const HatOptions& options);

/// "53.2 cm" or "20.9 in".
[[nodiscard]] std::string length_text(double mm, SizeUnit units);

/// Heading and one item a caution; empty where there are none.
[[nodiscard]] std::string cautions_text(const std::vector<Caution>& cautions);
[[nodiscard]] Document cautions_document(const std::vector<Caution>& cautions);

}  // namespace ridgetally
