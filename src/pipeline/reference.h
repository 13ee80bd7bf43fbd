#pragma once

#include <optional>

#include "core/outcome.h"
#include "fabric/fabric_region.h"
#include "image/photo.h"
#include "pipeline/measure_swatch.h"
#include "rectify/rectification.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// The scale reference and the plane it lies in.
struct ReferencePlane {
    ScaleReference reference;
    Rectification rectification;
};

/// Reads the reference the options ask for.
[[nodiscard]] Outcome<ScaleReference> read_reference(const Photo& photo, const Catalog& catalog,
                                                     const ScaleOptions& options, Trace& trace);

/// Fits the camera over the reference.
[[nodiscard]] Outcome<Rectification> rectify_reference(const Photo& photo, const ScaleReference& reference,
                                                       const ScaleOptions& options);

/// Both of these.
[[nodiscard]] Outcome<ReferencePlane> find_reference(const Photo& photo, const Catalog& catalog,
                                                     const ScaleOptions& options, Trace& trace);

/// What the trace is told of the camera.
void note_camera(const Rectification& rectification, Trace& trace);

/// The fabric beside the reference, or the part of the photo that the maker bounded by hand (`area_px`,
/// unless empty). `overview` is of this photo where somebody has made it already.
[[nodiscard]] Outcome<FabricRegion> fabric_beside(
    const Photo& photo, const ScaleReference& reference, const std::vector<PhotoPoint>& area_px,
    const std::optional<FabricOverview>& overview = std::nullopt);

/// What reports say of it.
[[nodiscard]] ScaleResult scale_result(const ReferencePlane& plane);

/// Warnings that come from the reference alone: strong tilt, focal length assumed.
[[nodiscard]] std::vector<Warning> scale_warnings(const ReferencePlane& plane);

[[nodiscard]] PhotoFacts photo_facts(const Photo& photo);

}  // namespace ridgetally
