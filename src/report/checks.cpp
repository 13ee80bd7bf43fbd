#include "report/checks.h"

#include "report/figures.h"
#include "report/phrases.h"
#include "report/wrap.h"

namespace ridgetally {

Document checks_document(const std::vector<CrownCheck>& checks) {
    Document list = Document::array();
    for (const auto& check : checks) {
        list.push_back({{"what", check.what},
                        {"verdict", key_of(check.verdict)},
                        {"chance_met", rounded(check.chance)},
                        {"message", check.message}});
    }
    return list;
}

std::string check_lines(const std::vector<CrownCheck>& checks) {
    std::string text;
    for (const auto& check : checks)
        text += paragraph("  " + capitalised(check.what) + ": ", check.message + ".");
    return text.empty() ? text : "Checks:\n" + text + "\n";
}

}  // namespace ridgetally
