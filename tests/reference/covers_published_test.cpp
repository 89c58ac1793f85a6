// Panes and films against published spectra; data/uv/SOURCES.md says where each comes from.
#include "core/light/covers.h"
#include "core/light/materials.h"
#include "tests/light/reference_table.h"

#include <cmath>
#include <map>
#include <numbers>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::light;
using washfast::test::ReferenceTable;

namespace {

double cosine(double degrees)
{
    return std::cos(degrees * std::numbers::pi / 180);
}

Layer layer(Material material, double mm)
{
    Layer made;
    made.material = material;
    made.thickness_mm = mm;
    return made;
}

size_t bandOf(double nm)
{
    for (size_t i = 0; i < bandCount; ++i)
        if (std::abs(wavelengths_nm[i] - nm) < 0.01)
            return i;
    ADD_FAILURE() << "no band at " << nm;
    return 0;
}

double at(const Layer& pane, double nm)
{
    return slabOf(pane).passes(bandOf(nm), 1);
}

/// Global light of the standard case: the sun at 45 degrees on day 172.
Bands globalLight()
{
    const auto sky = clearSpectrum(45, distanceFactor(172), Atmosphere {}, 1013.25);
    Bands global {};
    for (size_t i = 0; i < bandCount; ++i)
        global[i] = sky.direct_normal[i] * cosine(45) + sky.diffuse[i];
    return global;
}

SpectrumTable filmOf(const std::string& name)
{
    const ReferenceTable films("uv/film_and_sheet_transmittance.csv");
    SpectrumTable table;
    for (size_t i = 0; i < films.size(); ++i)
        if (films.text(i, "material") == name) {
            table.nm.push_back(films.number(i, "wavelength_nm"));
            table.value.push_back(films.number(i, "total_transmittance"));
        }
    EXPECT_FALSE(table.nm.empty()) << name;
    return table;
}

} // namespace

// Rubin, Sol. Energy Mater. 12 (1985) 275: a pane of any thickness straight from n and k of the table, by the
// textbook's formula for a slab, at the wavelengths of the table that are ours too.
TEST(PublishedCovers, GlassFromIndexAndExtinction)
{
    const ReferenceTable rubin("uv/soda_lime_rubin1985_nk.csv");
    int checked = 0;
    for (size_t i = 0; i < rubin.size(); ++i) {
        const double nm = std::round(rubin.number(i, "wavelength_um") * 1e4) / 10;
        if (nm > 500 || std::fmod(nm, 10) != 0)
            continue;
        ++checked;
        const double n = rubin.number(i, "n");
        const double alpha = 4 * std::numbers::pi * rubin.number(i, "k") / (nm * 1e-6);
        const double r = std::pow((n - 1) / (n + 1), 2);
        for (const double mm : { 2.0, 3.0, 4.0, 6.0 }) {
            const double x = std::exp(-alpha * mm);
            EXPECT_NEAR(at(layer(Material::Glass, mm), nm), (1 - r) * (1 - r) * x / (1 - r * r * x * x), 5e-4)
                << nm << " nm, " << mm << " mm";
        }
    }
    EXPECT_EQ(checked, 20);
}

// International Glazing Database, NFRC 102: a pane of 3.048 mm. Another glass with more iron than Rubin's: the two
// agree in the light that passes, not at the edge.
TEST(PublishedCovers, GlassAgainstAnotherPane)
{
    const ReferenceTable nfrc("uv/nfrc_generic_clear_3mm.csv");
    const auto pane = layer(Material::Glass, 3.048);
    SpectrumTable table;
    for (size_t i = 0; i < nfrc.size(); ++i) {
        table.nm.push_back(nfrc.number(i, "wavelength_nm"));
        table.value.push_back(nfrc.number(i, "transmittance"));
        if (table.nm.back() >= 350 && table.nm.back() <= 500 && std::fmod(table.nm.back(), 10) == 0) {
            EXPECT_NEAR(at(pane, table.nm.back()), table.value.back(), 0.04) << table.nm.back();
        }
    }
    Layer measured;
    measured.material = Material::Measured;
    measured.spectrum = table;
    const auto global = globalLight();
    const double theirs = CoverStack({ measured }).directShare(global, 1, uvaWeights);
    const double ours = CoverStack({ pane }).directShare(global, 1, uvaWeights);
    const auto interval = pane.interval();
    EXPECT_GE(theirs, ours * interval.low);
    EXPECT_LE(theirs, ours * interval.high);
}

// The same database: NFRC 103, the same glass 5.715 mm thick, passes 0.437 at 340 nm where 3.048 mm pass 0.616. A
// measured spectrum is carried to that thickness.
TEST(PublishedCovers, MeasuredPaneOfAnotherThickness)
{
    const ReferenceTable nfrc("uv/nfrc_generic_clear_3mm.csv");
    Layer thick;
    thick.material = Material::Measured;
    thick.spectrum_thickness_mm = 3.048;
    thick.thickness_mm = 5.715;
    thick.spectrum.emplace();
    for (size_t i = 0; i < nfrc.size(); ++i) {
        thick.spectrum->nm.push_back(nfrc.number(i, "wavelength_nm"));
        thick.spectrum->value.push_back(nfrc.number(i, "transmittance"));
    }
    EXPECT_NEAR(at(thick, 340), 0.437, 0.005);
}

// Values worked out from Rubin's table by a separate script, light at right angles through the pane (global light of
// the sun at 45 degrees), and the beam at several angles: a second reckoning.
TEST(PublishedCovers, UvaThroughPanes)
{
    const auto global = globalLight();
    const std::pair<double, double> panes[]
        = { { 2, .810 }, { 3, .774 }, { 4, .744 }, { 6, .696 }, { 10, .625 }, { 12, .596 } };
    for (const auto& [mm, share] : panes)
        EXPECT_NEAR(CoverStack({ layer(Material::Glass, mm) }).directShare(global, 1, uvaWeights), share, 0.002) << mm;
    const CoverStack pane({ layer(Material::Glass, 4) });
    EXPECT_NEAR(CoverStack({ layer(Material::LowIronGlass, 4) }).directShare(global, 1, uvaWeights), .860, 0.002);
    EXPECT_NEAR(CoverStack({ layer(Material::Glass, 4), layer(Material::Glass, 4) }).directShare(global, 1, uvaWeights),
        .60, 0.006);
    EXPECT_NEAR(pane.directShare(global, 1, trapezoid(400, 450)), .891, 0.002);
    const auto sky = clearSpectrum(45, distanceFactor(172), Atmosphere {}, 1013.25);
    const std::pair<double, double> beam[]
        = { { 0, .769 }, { 30, .762 }, { 45, .744 }, { 60, .687 }, { 70, .584 }, { 80, .356 } };
    for (const auto& [angle, share] : beam)
        EXPECT_NEAR(pane.directShare(sky.direct_normal, cosine(angle), uvaWeights), share, 0.001) << angle;
    // Popular sources: plain glass passes some 70 to 75 % of UVA.
    EXPECT_GT(pane.directShare(global, 1, uvaWeights), 0.70);
    EXPECT_LT(pane.directShare(global, 1, uvaWeights), 0.75);
}

// Acetate and polyester as measured: what is shipped is that, at its own thickness.
TEST(PublishedCovers, FilmsAsMeasured)
{
    const struct {
        const char* name;
        Material material;
        double mm;
    } films[] = { { "acetate_115um", Material::Acetate, 0.115 }, { "polyester_125um", Material::Polyester, 0.125 },
        { "acrylic_cast_3mm", Material::Acrylic, 3 } };
    for (const auto& film : films) {
        const auto measured = filmOf(film.name).onBands();
        for (size_t i = 0; i < bandCount; ++i)
            EXPECT_NEAR(slabOf(layer(film.material, film.mm)).passes(i, 1), measured[i], 0.002)
                << film.name << ' ' << wavelengths_nm[i];
    }
    // Polyester is used to stop UVB and let UVA pass.
    EXPECT_LT(at(layer(Material::Polyester, 0.125), 310), 0.05);
    EXPECT_GT(at(layer(Material::Polyester, 0.125), 360), 0.80);
    EXPECT_GT(at(layer(Material::Acetate, 0.115), 310), 0.75);
}

// The same acetate, rolled thicker, measured by the same people: ours from the thinnest by thickness alone.
TEST(PublishedCovers, AcetateOfOtherThickness)
{
    for (const auto& [name, mm] :
        std::map<std::string, double> { { "acetate_250um", 0.25 }, { "acetate_480um", 0.48 } }) {
        const auto measured = filmOf(name);
        for (double nm = 320; nm <= 400; nm += 10) {
            const size_t band = bandOf(nm);
            EXPECT_NEAR(slabOf(layer(Material::Acetate, mm)).passes(band, 1), measured.at(nm), 0.09)
                << name << ' ' << nm;
        }
    }
}

// Grades of acrylic sheet differ from nothing to nine tenths at 350 nm; the interval has to hold them.
TEST(PublishedCovers, AcrylicIntervalHoldsTheGrades)
{
    const auto global = globalLight();
    const auto sheet = layer(Material::Acrylic, 3);
    const double ours = CoverStack({ sheet }).directShare(global, 1, uvaWeights);
    for (const char* grade :
        { "acrylic_cast_3mm", "acrylic_extruded_3mm", "acrylic_uv_passing_3mm", "acrylic_uv_stopping_3mm" }) {
        Layer measured;
        measured.material = Material::Measured;
        measured.spectrum = filmOf(grade);
        const double theirs = CoverStack({ measured }).directShare(global, 1, uvaWeights);
        EXPECT_GE(theirs, ours * sheet.interval().low) << grade;
        EXPECT_LE(theirs, ours * sheet.interval().high) << grade;
    }
    EXPECT_TRUE(sheet.assumed());
}

} // namespace WASHFAST_FILE
