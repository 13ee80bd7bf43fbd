#include "cli/hat_options.h"

#include <algorithm>

#include "cli/advice_values.h"
#include "cli/values.h"

namespace ridgetally {
namespace {

using Text = const std::string&;
using Texts = const std::vector<std::string>&;

CLI::Option* add_list(CLI::App& command, const char* name, const char* type, const char* help,
                      const std::function<void(Text)>& take) {
    return command
        .add_option_function<std::vector<std::string>>(
            name, [take](Texts texts) { std::for_each(texts.begin(), texts.end(), take); }, help)
        ->type_name(type)
        ->group("Hat")
        ->allow_extra_args(false)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

}  // namespace

void add_head_options(CLI::App& command, HeadArguments& arguments) {
    add_list(command, "--head", "LENGTH",
             "Head around its widest part, as in 56cm; say it again for several hats",
             [&arguments](Text text) { arguments.heads_mm.push_back(values::head_mm(text)); });
    add_list(command, "--age", "AGE",
             "The average head of a child of that age, up to 5 years: 9months, 2years",
             [&arguments](Text text) { arguments.ages_months.push_back(values::age_months(text)); });
    add_list(command, "--size", "NAME",
             "The middle of a trade size: Baby, Toddler, Child, Teen, Woman, Man, ...",
             [&arguments](Text text) { arguments.sizes.push_back(text); });
}

Outcome<std::vector<Head>> heads_from(const HeadArguments& arguments, const Catalog& catalog) {
    if (arguments.empty())
        return Refusal{"advice", "no-head-told", "no head was told",
                       "tell it with --head, as in 56cm, or with --age or --size"};
    std::vector<Head> heads;
    for (const double mm : arguments.heads_mm) heads.push_back({mm, "as told", "the maker", {}, {}});
    for (const double months : arguments.ages_months) {
        const auto head = head_of_age(months, catalog);
        if (!head) return head.refusal();
        heads.push_back(*head);
    }
    for (const auto& size : arguments.sizes) {
        const auto head = head_of_size(size, catalog);
        if (!head) return head.refusal();
        heads.push_back(*head);
    }
    std::stable_sort(heads.begin(), heads.end(),
                     [](const Head& a, const Head& b) { return a.circumference_mm < b.circumference_mm; });
    return heads;
}

void add_wish_options(CLI::App& command, HatWish& wish) {
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Hat");
    };
    add("--ease", "EASE", "Hat against head: -5% or -2.5cm is smaller, 0% as large (default: -5%)",
        [&wish](Text text) { wish.ease = values::ease(text); });
    add("--height", "LENGTH", "From the centre of the crown to the edge (default: two fifths of the head)",
        [&wish](Text text) { wish.height_mm = values::length_mm(text); });
    add("--turn-up", "LENGTH", "Of a brim that is folded up, besides the height",
        [&wish](Text text) { wish.turn_up_mm = values::length_mm(text); });
}

}  // namespace ridgetally
