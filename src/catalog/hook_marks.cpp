#include "catalog/hook_marks.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>

#include "core/amount.h"
#include "core/quantity.h"

namespace ridgetally {
namespace {

/// Thinnest and thickest shaft that is taken for a hook, as in the file of hooks.
constexpr double least_hook_mm = 0.3;
constexpr double most_hook_mm = 60.0;

Refusal unknown(std::string_view text, const std::string& why) {
    return {"catalog", "unknown-hook", "\"" + std::string(text) + "\" is no hook: " + why,
            "say the shaft in mm, as in 5.5mm"};
}

/// Capitals, without what stands between letter and number.
std::string upper(std::string_view text) {
    std::string word(text);
    std::erase_if(word, [](char c) { return c == ' ' || c == '-' || c == '/'; });
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    return word;
}

std::string mm_text(double mm) {
    std::ostringstream text;
    text << mm << " mm";
    return text.str();
}

/// "M/N-13" is printed for M-13, N-13 and M/N-13: every name the mark goes by, and its letter and number
/// alone.
std::vector<std::string> names_of(const std::string& mark) {
    const auto dash = mark.rfind('-');
    const std::string letters = mark.substr(0, dash);
    const std::string number = dash == std::string::npos ? "" : mark.substr(dash + 1);
    std::vector<std::string> names = {upper(mark), upper(letters)};
    if (!number.empty()) names.push_back(upper(number));
    std::istringstream each(letters);
    for (std::string letter; std::getline(each, letter, '/');) {
        names.push_back(upper(letter));
        if (!number.empty()) names.push_back(upper(letter + number));
    }
    return names;
}

bool goes_by(const std::string& mark, const std::string& name) {
    const auto names = names_of(mark);
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// Sizes a name stands for: those of the council's table and those that only shops print.
struct Sizes {
    std::vector<double> council;
    std::vector<double> shops;
};

Sizes us_sizes(const Catalog& catalog, const std::string& name) {
    Sizes sizes;
    for (const auto& hook : catalog.hooks) {
        if (hook.us && goes_by(*hook.us, name)) {
            sizes.council.push_back(hook.mm);
        } else if (std::any_of(hook.us_also_seen.begin(), hook.us_also_seen.end(),
                               [&](const auto& mark) { return goes_by(mark, name); })) {
            sizes.shops.push_back(hook.mm);
        }
    }
    return sizes;
}

std::string list_of(const std::vector<double>& sizes) {
    std::string text;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        text += (i == 0 ? "" : i + 1 == sizes.size() ? " or " : ", ") + mm_text(sizes[i]);
    return text;
}

Refusal ambiguous(std::string_view text, const std::vector<double>& sizes) {
    return {"catalog", "ambiguous-hook", "\"" + std::string(text) + "\" may be " + list_of(sizes),
            "look for the mm on the shaft and say it, as in " + mm_text(sizes.front())};
}

/// The one size a mark stands for, with a warning where charts disagree.
Outcome<HookChoice> decide(std::string_view text, Sizes sizes) {
    std::vector<double> all = sizes.council;
    all.insert(all.end(), sizes.shops.begin(), sizes.shops.end());
    std::sort(all.begin(), all.end());
    if (all.empty()) return unknown(text, "no chart has this mark");
    if (all.size() == 1) return HookChoice{all.front(), {}};
    if (sizes.council.size() != 1) return ambiguous(text, all);
    const double mm = sizes.council.front();
    return HookChoice{mm,
                      {"\"" + std::string(text) + "\" is taken as " + mm_text(mm) +
                       ", but charts print this mark on " + list_of(all) + ": check the mm on the shaft"}};
}

Outcome<HookChoice> by_uk_number(const Catalog& catalog, std::string_view text, const std::string& number) {
    Sizes sizes;
    for (const auto& hook : catalog.hooks)
        if (std::find(hook.uk_old.begin(), hook.uk_old.end(), number) != hook.uk_old.end())
            sizes.shops.push_back(hook.mm);
    return decide(text, sizes);
}

Outcome<HookChoice> by_steel_number(const Catalog& catalog, std::string_view text,
                                    const std::string& number) {
    for (const auto& hook : catalog.steel_hooks) {
        if (hook.us == number)
            return HookChoice{hook.mm,
                              {"steel number " + number + " is taken as " + mm_text(hook.mm) +
                               ", but lists of steel hooks differ: check the mm on the shaft"}};
    }
    return unknown(text, "no steel hook has this number");
}

std::optional<std::string> after(const std::string& word, std::string_view start) {
    if (!word.starts_with(start)) return std::nullopt;
    return word.substr(start.size());
}

bool is_bare_number(std::string_view text) {
    return text.find_first_not_of("0123456789.,") == std::string_view::npos && !text.empty();
}

Outcome<HookChoice> by_size(std::string_view text) {
    const auto mm = parse_length_mm(text);
    if (!mm) return unknown(text, "no size and no mark");
    if (*mm < least_hook_mm || *mm > most_hook_mm) return unknown(text, "hooks are 0.3 to 60 mm thick");
    return HookChoice{*mm, {}};
}

}  // namespace

Outcome<HookChoice> hook_from(const Catalog& catalog, std::string_view text) {
    const std::string_view told = trimmed(text);
    const std::string word = upper(told);
    if (const auto number = after(word, "STEEL")) return by_steel_number(catalog, told, *number);
    if (const auto number = after(word, "UK")) return by_uk_number(catalog, told, *number);
    if (const auto mark = after(word, "US")) return decide(told, us_sizes(catalog, *mark));
    if (is_bare_number(told)) {
        auto size = by_size(told);
        const Sizes marks = us_sizes(catalog, word);
        const bool is_mark = !marks.council.empty() || !marks.shops.empty() ||
                             by_uk_number(catalog, told, word) || by_steel_number(catalog, told, word);
        if (!is_mark || !size) return size;
        return Refusal{
            "catalog", "ambiguous-hook", "\"" + std::string(told) + "\" may be mm, a US or a UK number",
            "say " + std::string(told) + "mm, US " + std::string(told) + " or UK " + std::string(told)};
    }
    const bool letter_first = !word.empty() && word.front() >= 'A' && word.front() <= 'Z';
    if (letter_first) return decide(told, us_sizes(catalog, word));
    return by_size(told);
}

Outcome<std::vector<double>> hooks_mm_from(const Catalog& catalog, std::string_view text) {
    std::vector<double> hooks;
    for (std::size_t at = 0; at <= text.size();) {
        const auto comma = std::min(text.find_first_of(",;", at), text.size());
        const std::string_view one = trimmed(text.substr(at, comma - at));
        at = comma + 1;
        const auto hook = is_bare_number(one) ? by_size(one) : hook_from(catalog, one);
        if (!hook) return hook.refusal();
        hooks.push_back(hook->mm);
    }
    std::sort(hooks.begin(), hooks.end());
    hooks.erase(std::unique(hooks.begin(), hooks.end()), hooks.end());
    return hooks;
}

std::string marks_of(const Catalog& catalog, double mm) {
    // A hundredth of a millimetre: finer than any two hooks of the table.
    const auto hook = std::find_if(catalog.hooks.begin(), catalog.hooks.end(),
                                   [&](const auto& h) { return std::abs(h.mm - mm) < 0.01; });
    if (hook == catalog.hooks.end()) return {};
    std::string text = hook->us ? "US " + *hook->us : "";
    if (!hook->uk_old.empty()) text += (text.empty() ? "UK " : ", UK ") + hook->uk_old.front();
    return text;
}

}  // namespace ridgetally
