#include "report/utf8.h"

#include <clocale>
#include <cstddef>
#include <cwchar>

namespace ridgetally {
namespace {

constexpr char32_t replacement = 0xFFFD;

/// The C library's table of widths belongs to a locale; this thread uses it while the object lives.
class Utf8Locale {
  public:
    Utf8Locale() {
        static const locale_t utf8_locale =
            ::newlocale(LC_CTYPE_MASK, "C.UTF-8", static_cast<locale_t>(nullptr));
        if (utf8_locale != nullptr) before_ = ::uselocale(utf8_locale);
    }
    Utf8Locale(const Utf8Locale&) = delete;
    Utf8Locale& operator=(const Utf8Locale&) = delete;
    ~Utf8Locale() {
        if (before_ != nullptr) ::uselocale(before_);
    }

  private:
    locale_t before_ = nullptr;
};

}  // namespace

char32_t take_code_point(std::string_view& text) {
    const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
    const unsigned first = byte(0);
    const std::size_t length = first < 0x80 ? 1 : first >= 0xF0 && first < 0xF8 ? 4 : first >= 0xE0 ? 3 : 2;
    const bool begins = first < 0x80 || (first >= 0xC2 && first < 0xF5);
    char32_t code_point = length == 1 ? first : first & (0x7FU >> length);
    std::size_t taken = 1;
    while (begins && taken < length && taken < text.size() && (byte(taken) & 0xC0U) == 0x80U)
        code_point = (code_point << 6U) | (byte(taken++) & 0x3FU);
    if (!begins || taken < length) {
        text.remove_prefix(1);
        return replacement;
    }
    text.remove_prefix(length);
    return code_point;
}

std::string utf8(char32_t c) {
    const auto tail = [c](unsigned shift) { return static_cast<char>(0x80U | ((c >> shift) & 0x3FU)); };
    if (c < 0x80) return {static_cast<char>(c)};
    if (c < 0x800) return {static_cast<char>(0xC0U | (c >> 6U)), tail(0)};
    if (c < 0x10000) return {static_cast<char>(0xE0U | (c >> 12U)), tail(6), tail(0)};
    return {static_cast<char>(0xF0U | (c >> 18U)), tail(12), tail(6), tail(0)};
}

int columns_of_character(char32_t code_point) {
    if (code_point < 0x80) return 1;
    const Utf8Locale locale;
    const int columns = ::wcwidth(static_cast<wchar_t>(code_point));
    return columns < 0 ? 1 : columns;
}

}  // namespace ridgetally
