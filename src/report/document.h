#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "core/outcome.h"
#include "pipeline/swatch_result.h"

namespace ridgetally {

/// Keys keep the order they were written in, so that the same photo gives the same bytes.
using Document = nlohmann::ordered_json;

/// Value of "schema" in every document: one per version of the contract.
inline constexpr const char* report_schema = "ridgetally.report/1";

/// What a document says besides the measurement.
struct DocumentOptions {
    std::optional<std::string> annotated;           ///< path of the annotated picture that was written
    std::optional<Document> advice = std::nullopt;  ///< on the hook, where a target was told
};

/// Which photo a refusal or a failure belongs to; no file for commands without a photo.
struct PhotoOfCommand {
    std::string command;  ///< "swatch", "scale"
    std::string file;
};

/// `{"value", "std", "low95", "high95"}`, six significant digits.
[[nodiscard]] Document measured_document(const Measured& x);

/// The document of `ridgetally swatch`. Quantities that are not visible are absent.
[[nodiscard]] Document swatch_document(const SwatchResult& result, const DocumentOptions& options = {});

/// The document of `ridgetally scale`: the scale block with every mark.
[[nodiscard]] Document scale_document(const ScaleReport& report, const DocumentOptions& options = {});

/// The document of a photo that could not be measured.
[[nodiscard]] Document refusal_document(const Refusal& refusal, const PhotoOfCommand& photo);

/// The line of a batch for a file that could not be read: status as in sysexits.h.
[[nodiscard]] Document failure_document(int status, const std::string& message, const PhotoOfCommand& photo);

/// One document as text: indented, newline at the end. Bytes that are not UTF-8 (file names) are replaced.
[[nodiscard]] std::string json_text(const Document& document);

/// One document on one line, newline at the end.
[[nodiscard]] std::string json_line(const Document& document);

}  // namespace ridgetally
