#pragma once

#include "advice/hook_advice.h"

namespace ridgetally {

/// Why the verdict is what it is, in the order a maker asks; used by advise_hook.
[[nodiscard]] std::vector<Reason> hook_reasons(const MadeGauge& made, const HookRequest& request,
                                               const HookAdvice& advice, const Catalog& catalog);

/// Every figure of the advice with formula, inputs and source; used by advise_hook.
[[nodiscard]] Workings hook_workings(const MadeGauge& made, const HookRequest& request,
                                     const HookAdvice& advice, const Catalog& catalog);

}  // namespace ridgetally
