#pragma once

#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "report/text.h"
#include "yarns/measurement.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// A swatch to be labelled.
struct LabelledSwatch {
    Yarn yarn;
    StoredMeasurement stored;
};

/// Size of the sheet, mm.
struct SheetSize {
    double width_mm = 0.0;
    double height_mm = 0.0;
};
inline constexpr SheetSize a4_sheet{210.0, 297.0};      ///< ISO 216
inline constexpr SheetSize letter_sheet{215.9, 279.4};  ///< 8.5 by 11 in (ANSI/ASME Y14.1)

/// Labels to print, cut out and pin on swatches, as SVG documents, one a sheet: number, yarn, hook, stitch,
/// state, gauge and day. Labels are 90 by 50 mm with a line to cut along and a place for the pin.
[[nodiscard]] std::vector<std::string> label_sheets(const std::vector<LabelledSwatch>& swatches,
                                                    const SheetSize& sheet, const Catalog& catalog,
                                                    const TextOptions& options);

}  // namespace ridgetally
