#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "pipeline/swatch_result.h"
#include "report/document.h"

/// The blocks that documents of several commands are put together from.
namespace ridgetally {

/// schema, program and command.
[[nodiscard]] Document document_head(std::string_view command);
[[nodiscard]] Document photo_document(const PhotoFacts& photo);
/// The photo, and all of them where several were taken together.
void add_photos(Document& document, const PhotoFacts& photo, const std::vector<PhotoFacts>& photos);
/// What gave the scale, without its marks.
[[nodiscard]] Document scale_block(const ScaleResult& scale);
[[nodiscard]] Document stitch_block(const StitchReading& stitch);
/// Adds a quantity that may not be visible.
void add_if_visible(Document& block, const char* key, const std::optional<Measured>& x);
[[nodiscard]] Document warnings_document(const std::vector<Warning>& warnings);
/// "corrected": what was set by hand; nothing where nothing was.
void add_corrected(Document& document, const std::vector<std::string>& corrected);
/// The named parts of a quantity's uncertainty.
[[nodiscard]] Document budget_document(const Measured& x);

}  // namespace ridgetally
