#include "advice/heads.h"

#include <algorithm>

#include "advice/normal.h"
#include "core/decimal.h"
#include "core/lower_case.h"

namespace ridgetally {
namespace {

double average_mm(const ChildHeads& row) { return 0.5 * (row.boys.p50_mm + row.girls.p50_mm); }

double between(double a, double b, double part) { return a + part * (b - a); }

std::optional<double> age_of_average(double head_mm, const std::vector<ChildHeads>& table) {
    for (std::size_t i = 1; i < table.size(); ++i) {
        const double from = average_mm(table[i - 1]);
        const double to = average_mm(table[i]);
        if (head_mm < from || head_mm > to) continue;
        return between(table[i - 1].age_months, table[i].age_months, (head_mm - from) / (to - from));
    }
    return std::nullopt;
}

}  // namespace

Outcome<Head> head_of_age(double age_months, const Catalog& catalog) {
    const auto& table = catalog.child_heads;
    const double last = table.back().age_months;
    if (age_months < 0.0 || age_months > last) {
        return Refusal{"advice", "no-head", "heads of children are known up to " + fixed(last, 0) + " months",
                       "measure the head, as in 52cm"};
    }
    const auto next = std::find_if(table.begin() + 1, table.end(),
                                   [&](const ChildHeads& row) { return row.age_months >= age_months; });
    const ChildHeads& a = *(next - 1);
    const ChildHeads& b = *next;
    const double part = (age_months - a.age_months) / (b.age_months - a.age_months);
    Head head;
    head.circumference_mm = between(average_mm(a), average_mm(b), part);
    head.low_mm = between(std::min(a.boys.p3_mm, a.girls.p3_mm), std::min(b.boys.p3_mm, b.girls.p3_mm), part);
    head.high_mm =
        between(std::max(a.boys.p97_mm, a.girls.p97_mm), std::max(b.boys.p97_mm, b.girls.p97_mm), part);
    const bool whole = age_months == static_cast<int>(age_months);
    head.name = fixed(age_months, whole ? 0 : 1) + (age_months == 1.0 ? " month" : " months");
    head.source = a.source + "; average of boys and girls";
    return head;
}

Outcome<Head> head_of_size(std::string_view name, const Catalog& catalog) {
    std::string names;
    const auto& sizes = catalog.hat_practice.sizes;
    for (const auto& size : sizes) {
        if (lower_case(size.name) == lower_case(std::string(name))) {
            const double middle = 0.5 * (size.head_low_mm + size.head_high_mm);
            return Head{middle, size.name, size.source + " (list: " + size.list + ")", size.head_low_mm,
                        size.head_high_mm};
        }
        names += (names.empty() ? "" : ", ") + size.name;
    }
    return Refusal{"advice", "no-head", "\"" + std::string(name) + "\" is no trade size",
                   "known are " + names + "; better measure the head"};
}

HeadAmongPeople among_people(double head_mm, const Catalog& catalog) {
    HeadAmongPeople people;
    for (const auto& adults : catalog.adult_heads) {
        const double smaller = normal_cdf((head_mm - adults.mean_mm) / adults.std_mm);
        (adults.who == "women" ? people.women_smaller : people.men_smaller) = smaller;
    }
    people.average_age_months = age_of_average(head_mm, catalog.child_heads);
    return people;
}

Workings people_workings(double head_mm, const HeadAmongPeople& people, const Catalog& catalog) {
    Workings workings;
    for (const auto& adults : catalog.adult_heads) {
        const double smaller = adults.who == "women" ? people.women_smaller : people.men_smaller;
        workings.push_back({adults.who + " with a smaller head",
                            exact(100.0 * smaller),
                            "of 100",
                            "normal distribution",
                            {{"head", head_mm, "mm"},
                             {"mean", adults.mean_mm, "mm"},
                             {"standard deviation", adults.std_mm, "mm"}},
                            adults.source});
    }
    if (people.average_age_months) {
        workings.push_back({"age of the children whose average head it is",
                            exact(*people.average_age_months),
                            "months",
                            "straight line between the ages of the table",
                            {{"head", head_mm, "mm"}},
                            catalog.child_heads.front().source});
    }
    return workings;
}

bool is_childs_head(double head_mm, const Catalog& catalog) {
    return std::all_of(catalog.adult_heads.begin(), catalog.adult_heads.end(),
                       [&](const AdultHeads& adults) { return head_mm < adults.p5_mm; });
}

std::vector<Caution> cautions_for(const std::vector<Head>& heads, const Catalog& catalog) {
    const bool any = std::any_of(heads.begin(), heads.end(), [&](const Head& head) {
        return is_childs_head(head.low_mm.value_or(head.circumference_mm), catalog);
    });
    return any ? catalog.hat_practice.cautions : std::vector<Caution>{};
}

}  // namespace ridgetally
