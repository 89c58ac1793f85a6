#include "core/density/profile.h"

#include "core/density/refuse.h"
#include "core/density/words.h"

#include <lcms2.h>
#include <memory>

namespace washfast::density {

namespace {

std::vector<double> tabulate(const cmsToneCurve* curve, int codes)
{
    std::vector<double> light(static_cast<size_t>(codes));
    for (int i = 0; i < codes; ++i) {
        const auto share = static_cast<cmsFloat32Number>(double(i) / (codes - 1));
        light[size_t(i)] = double(cmsEvalToneCurveFloat(curve, share));
    }
    return light;
}

const cmsToneCurve* curveOf(cmsHPROFILE profile, cmsTagSignature tag)
{
    return static_cast<const cmsToneCurve*>(cmsReadTag(profile, tag));
}

} // namespace

ProfileShape srgbShape(int codes)
{
    ProfileShape shape;
    std::vector<double> light(static_cast<size_t>(codes));
    for (int i = 0; i < codes; ++i)
        light[size_t(i)] = srgbToLinear(double(i) / (codes - 1));
    shape.linear = { light, light, light };
    shape.to_xyz_d50 = srgbToXyzD50();
    shape.name = QStringLiteral("sRGB");
    return shape;
}

Result<ProfileShape> readProfile(const QByteArray& icc, int codes)
{
    struct Close {
        void operator()(void* profile) const { cmsCloseProfile(profile); }
    };
    const std::unique_ptr<void, Close> profile(cmsOpenProfileFromMem(icc.constData(), cmsUInt32Number(icc.size())));
    if (!profile)
        return refuse(QT_TRANSLATE_NOOP("Density", "Its colour profile is damaged."));
    ProfileShape shape;
    char name[256] = {};
    cmsGetProfileInfoASCII(profile.get(), cmsInfoDescription, "en", "US", name, sizeof name - 1);
    shape.name = QString::fromLatin1(name).trimmed();

    const auto space = cmsGetColorSpace(profile.get());
    if (space == cmsSigGrayData) {
        const auto* curve = curveOf(profile.get(), cmsSigGrayTRCTag);
        if (!curve)
            return refuse(QT_TRANSLATE_NOOP("Density", "Its grey colour profile has no tone curve."));
        const auto light = tabulate(curve, codes);
        shape.linear = { light, light, light };
        shape.to_xyz_d50 = srgbToXyzD50(); // equal amounts give the white, all that grey needs
        return shape;
    }
    if (space != cmsSigRgbData)
        return refuse(QT_TRANSLATE_NOOP("Density", "Its colour profile is for other than red, green and blue."));
    if (!cmsIsMatrixShaper(profile.get()))
        return refuse(QT_TRANSLATE_NOOP("Density",
            "Its colour profile is a table of colours without tone curves; save the picture with the profile sRGB."));
    shape.has_tables_too = cmsIsTag(profile.get(), cmsSigAToB0Tag) || cmsIsTag(profile.get(), cmsSigAToB1Tag);
    constexpr cmsTagSignature curves[] { cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag };
    constexpr cmsTagSignature colours[] { cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag };
    for (size_t k = 0; k < 3; ++k) {
        const auto* curve = curveOf(profile.get(), curves[k]);
        const auto* xyz = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), colours[k]));
        if (!curve || !xyz)
            return refuse(QT_TRANSLATE_NOOP("Density", "Its colour profile is damaged."));
        shape.linear[k] = tabulate(curve, codes);
        shape.to_xyz_d50[0][k] = xyz->X;
        shape.to_xyz_d50[1][k] = xyz->Y;
        shape.to_xyz_d50[2][k] = xyz->Z;
    }
    return shape;
}

} // namespace washfast::density
