#include "cli/traceable.h"

#include <algorithm>
#include <cmath>
#include <regex>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

std::vector<std::string> numbers_of(const std::string& text) {
    static const std::regex number(R"rx((?:^|[^0-9A-Za-z.])([0-9]+(?:\.[0-9]+)?))rx");
    std::vector<std::string> numbers;
    for (auto at = std::sregex_iterator(text.begin(), text.end(), number); at != std::sregex_iterator(); ++at)
        numbers.push_back((*at)[1]);
    return numbers;
}

std::string without_marks(const std::string& text) {
    return std::regex_replace(text, std::regex(R"rx(\((?:US|UK)[^)]*\))rx"), "");
}

double last_unit(const std::string& number) {
    const auto point = number.find('.');
    return point == std::string::npos ? 1.0 : std::pow(10.0, -static_cast<double>(number.size() - point - 1));
}

}  // namespace

std::vector<std::string> untraceable_numbers(const std::string& answer, const std::string& why) {
    std::vector<double> known;
    for (const auto& number : numbers_of(why)) known.push_back(std::stod(number));
    std::vector<std::string> untraceable;
    for (const auto& number : numbers_of(without_marks(answer))) {
        const double value = std::stod(number);
        const double unit = last_unit(number);
        // Half a unit for rounding, a whole one for half widths, which are rounded up.
        const bool found = std::any_of(known.begin(), known.end(),
                                       [&](double k) { return std::abs(k - value) < 1.000001 * unit; });
        if (!found) untraceable.push_back(number);
    }
    return untraceable;
}

std::vector<std::string> untraceable_numbers_of(const std::vector<std::string>& arguments) {
    const Finished plain = run(arguments);
    auto with_why = arguments;
    with_why.emplace_back("--why");
    const Finished explained = run(with_why);
    EXPECT_EQ(plain.status, 0) << plain.err;
    EXPECT_EQ(explained.out.rfind(plain.out, 0), 0U) << "--why must only add to the answer";
    EXPECT_GT(explained.out.size(), plain.out.size());
    return untraceable_numbers(plain.out,
                               explained.out.substr(std::min(plain.out.size(), explained.out.size())));
}

}  // namespace ridgetally::blackbox
