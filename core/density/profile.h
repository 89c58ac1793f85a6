// The tone curves and the matrix of an embedded ICC profile (ICC.1:2010, three-component matrix-based and grey ones).
#pragma once

#include "core/density/colour.h"
#include "core/quantity/result.h"

#include <QByteArray>
#include <vector>

namespace washfast::density {

struct ProfileShape {
    std::array<std::vector<double>, 3> linear; // light of each code
    Matrix3 to_xyz_d50 {};
    QString name;
    bool has_tables_too = false; // tables of colours stand beside the curves and are not used
};

/// `codes`: 256 or 65536. Profiles that are only tables of colours, or for other than RGB and grey, are refused.
[[nodiscard]] Result<ProfileShape> readProfile(const QByteArray& icc, int codes);
/// IEC 61966-2-1.
[[nodiscard]] ProfileShape srgbShape(int codes);

} // namespace washfast::density
