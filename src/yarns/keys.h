#pragma once

#include <array>
#include <concepts>
#include <optional>
#include <string_view>

#include "core/stitch.h"
#include "yarns/measurement.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// Values that are written as a word: in the file, in JSON, in CSV and on the command line.
template <typename T>
concept Keyed = requires(T value) {
    { key_of(value) } -> std::same_as<std::string_view>;
};

/// The value of a word; none for any other word.
template <Keyed T>
[[nodiscard]] std::optional<T> from_key(std::string_view key);

namespace detail {

template <Keyed T, std::size_t Count>
std::optional<T> one_of(std::string_view key, const std::array<T, Count>& values) {
    for (const T value : values) {
        if (key_of(value) == key) return value;
    }
    return std::nullopt;
}

}  // namespace detail

template <>
inline std::optional<StitchFamily> from_key(std::string_view key) {
    return stitch_family_from(key);
}
template <>
inline std::optional<Worked> from_key(std::string_view key) {
    return worked_from(key);
}
template <>
inline std::optional<Craft> from_key(std::string_view key) {
    return detail::one_of(key, std::array{Craft::crochet, Craft::knit});
}
template <>
inline std::optional<PieceKind> from_key(std::string_view key) {
    return detail::one_of(key, std::array{PieceKind::swatch, PieceKind::crown, PieceKind::piece});
}
template <>
inline std::optional<FabricState> from_key(std::string_view key) {
    return detail::one_of(key, std::array{FabricState::off_hook, FabricState::relaxed, FabricState::washed});
}

}  // namespace ridgetally
