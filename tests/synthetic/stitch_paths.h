#pragma once

#include <vector>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// Which side of a stitch the camera sees.
enum class Face { front, back };

/// For work through one loop, whether the loops of this row that the next one leaves free lie on the camera's
/// side.
enum class LoopRidge { none, facing };

/// The loop nearer to the maker is the front one of the row she works into. Worked through the back loop, it
/// stays free and lies on the side where the next row shows its front; through the front loop, the other way
/// round. Work in rounds shows fronts only, turned work front and back in turn. Common practice, no source.
[[nodiscard]] LoopRidge free_loops(StitchFamily family, Worked worked, Face face);

/// Centre line of one visible strand of a stitch, as control points of a Catmull-Rom curve:
/// x in stitches (0..1 across the stitch), y in rows (0 at the foot, 1 at the top), z in yarn radii
/// (0 in the middle of the fabric, positive towards the camera).
using StrandPath = std::vector<Vec3>;

/// What a strand is to its stitch.
enum class Part { backing, loop, leg, bar };

struct Strand {
    Part part = Part::leg;
    StrandPath path;
};

/// The strands one stitch shows. Shapes after the trade's own description: two legs of a V on the front of a
/// short stitch, a bar on its back; posts with wraps in tall ones; a chain of loops along the top of each
/// row.
[[nodiscard]] std::vector<Strand> stitch_strands(StitchFamily family, Face face, LoopRidge ridge,
                                                 const StitchShape& shape);

/// Points along a Catmull-Rom curve through `control`, `steps` a stretch, ends included.
[[nodiscard]] std::vector<Vec3> smooth_curve(const StrandPath& control, int steps);

}  // namespace ridgetally::synthetic
