#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/derivation.h"
#include "catalog/catalog.h"
#include "core/outcome.h"

namespace ridgetally {

/// A head to make a hat for.
struct Head {
    double circumference_mm = 0.0;
    std::string name;    ///< "56 cm", "9 months", "Toddler"
    std::string source;  ///< who says that it is so large
    /// Between which sizes such heads lie, where a name was told and not a size.
    std::optional<double> low_mm;
    std::optional<double> high_mm;
};

/// Of a child of `age_months`: the average of boys and girls, between 3 of 100 of the smaller and 97 of 100
/// of the larger sex; straight lines between the ages of the table. Refusal: stage "advice", code "no-head"
/// beyond the table.
[[nodiscard]] Outcome<Head> head_of_age(double age_months, const Catalog& catalog);

/// Of a trade size of the first list that has the name (capitals do not matter): the middle of its range.
/// Refusal: stage "advice", code "no-head" with the names there are.
[[nodiscard]] Outcome<Head> head_of_size(std::string_view name, const Catalog& catalog);

/// Who has a head as large as that.
struct HeadAmongPeople {
    double men_smaller = 0.0;                  ///< share of men with a smaller head
    double women_smaller = 0.0;                ///< share of women
    std::optional<double> average_age_months;  ///< of the children whose average it is; none beyond the table
};
[[nodiscard]] HeadAmongPeople among_people(double head_mm, const Catalog& catalog);

/// The figures of `people`.
[[nodiscard]] Workings people_workings(double head_mm, const HeadAmongPeople& people, const Catalog& catalog);

/// Whether so small a head is a child's: below the 5th percentile of the adults with the smaller heads.
[[nodiscard]] bool is_childs_head(double head_mm, const Catalog& catalog);

/// The cautions that belong to hats for these heads: none where all are adults'.
[[nodiscard]] std::vector<Caution> cautions_for(const std::vector<Head>& heads, const Catalog& catalog);

}  // namespace ridgetally
