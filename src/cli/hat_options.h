#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "advice/hat_shape.h"
#include "core/outcome.h"

namespace ridgetally {

/// Whom hats are for.
struct HeadArguments {
    std::vector<double> heads_mm;
    std::vector<double> ages_months;
    std::vector<std::string> sizes;  ///< of the trade

    [[nodiscard]] bool empty() const { return heads_mm.empty() && ages_months.empty() && sizes.empty(); }
};

/// --head, --age, --size, each as often as wanted.
void add_head_options(CLI::App& command, HeadArguments& arguments);

/// The heads, from small to large. Refusals of head_of_age and head_of_size; stage "advice", code
/// "no-head-told" where there is none.
[[nodiscard]] Outcome<std::vector<Head>> heads_from(const HeadArguments& arguments, const Catalog& catalog);

/// --ease, --height, --turn-up.
void add_wish_options(CLI::App& command, HatWish& wish);

}  // namespace ridgetally
