#pragma once

#include <string>

#include "advice/hook_advice.h"
#include "report/document.h"
#include "report/terms.h"
#include "report/workings.h"

namespace ridgetally {

struct AdviceOptions {
    SizeUnit units = SizeUnit::cm;
    Why why = Why::hidden;
};

/// The `advice` block of the contract (DEVELOPERS.md), with further keys: the parts behind the verdict.
[[nodiscard]] Document advice_document(const HookAdvice& advice, const HookRequest& request,
                                       const MadeGauge& made, const AdviceOptions& options = {});

/// The verdict for people: hook, figures, what the piece would measure, reasons.
[[nodiscard]] std::string advice_text(const HookAdvice& advice, const HookRequest& request,
                                      const MadeGauge& made, const Catalog& catalog,
                                      const AdviceOptions& options = {});

/// The document of `ridgetally hook`.
[[nodiscard]] Document hook_document(const HookAdvice& advice, const HookRequest& request,
                                     const MadeGauge& made, const AdviceOptions& options = {});

}  // namespace ridgetally
