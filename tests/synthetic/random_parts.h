#pragma once

#include "core/random.h"
#include "synthetic/random_scene.h"

namespace ridgetally::synthetic {

/// The parts random shots are put together from; each draws from `random` and is placed at the origin.
[[nodiscard]] Fabric random_fabric(const Variety& variety, Random& random);
[[nodiscard]] Yarn random_yarn(Random& random);
[[nodiscard]] Ruler random_ruler(std::optional<RulerMake> make, Random& random);
/// `fabric`: colour of the fabric, which the table must not hide.
[[nodiscard]] Table random_table(const Colour& fabric, Random& random);
[[nodiscard]] Light random_light(Random& random);
[[nodiscard]] Sensor random_sensor(Random& random);
/// A fabric that `make` draws, beside a ruler on a table, in light, before a sensor; nothing is placed yet.
[[nodiscard]] Scene random_things(Fabric (*make)(const Variety&, Random&), const Variety& variety,
                                  Random& random);
[[nodiscard]] JpegOptions random_jpeg(const Camera& camera, const Variety& variety, Random& random);

}  // namespace ridgetally::synthetic
