#include "report/workings.h"

#include "core/units.h"
#include "report/figures.h"
#include "report/phrases.h"
#include "report/table.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string with_unit(double value, const std::string& unit) {
    return plain_number(value) + (unit.empty() ? "" : " " + unit);
}

/// "16.9 cm, 6.67 in" of a length in mm.
std::string other_units(const Measured& mm) {
    const auto one = [](const Measured& x, const std::string& unit) {
        const std::string half = x.std > 0.0 ? " \u00B1 " + plain_number(coverage_factor_95 * x.std) : "";
        return plain_number(x.value) + half + " " + unit;
    };
    return one(scaled(mm, 0.1), "cm") + ", " + one(scaled(mm, 1.0 / mm_per_inch), "in");
}

std::string value_text(const Derivation& d) {
    std::string text = with_unit(d.result.value, d.unit);
    if (d.result.std > 0.0)
        text += ", \u00B1 " + with_unit(coverage_factor_95 * d.result.std, d.unit) + " in 95 of 100 cases";
    if (d.unit == "mm") text += " (" + other_units(d.result) + ")";
    return text;
}

std::string formula_text(const Derivation& d) {
    std::string text = d.formula;
    for (std::size_t i = 0; i < d.inputs.size(); ++i) {
        const Given& given = d.inputs[i];
        text += (i == 0 ? "; with " : ", ") + given.name + " " + with_unit(given.value, given.unit);
    }
    return text;
}

}  // namespace

std::string workings_text(const Workings& workings) {
    std::string text = "\nHow each figure came about:\n";
    for (const auto& d : workings) {
        text += paragraph("  ", capitalised(d.name) + " = " + value_text(d));
        text += paragraph("      ", formula_text(d) + ".");
        text += paragraph("      source: ", d.source);
    }
    return text;
}

Document workings_document(const Workings& workings) {
    Document list = Document::array();
    for (const auto& d : workings) {
        Document row;
        row["name"] = d.name;
        row["value"] = rounded(d.result.value);
        if (d.result.std > 0.0) row["std"] = rounded(d.result.std);
        if (!d.unit.empty()) row["unit"] = d.unit;
        row["formula"] = d.formula;
        row["inputs"] = Document::array();
        for (const auto& given : d.inputs) {
            Document input = {{"name", given.name}, {"value", rounded(given.value)}};
            if (!given.unit.empty()) input["unit"] = given.unit;
            row["inputs"].push_back(input);
        }
        row["source"] = d.source;
        list.push_back(row);
    }
    return list;
}

Document reasons_document(const std::vector<Reason>& reasons) {
    Document list = Document::array();
    for (const auto& reason : reasons) list.push_back({{"code", reason.code}, {"message", reason.message}});
    return list;
}

std::string reasons_text(const std::vector<Reason>& reasons) {
    std::string text;
    for (const auto& reason : reasons)
        text += paragraph("  - ", capitalised(reason.message) + " [" + reason.code + "]");
    return text;
}

}  // namespace ridgetally
