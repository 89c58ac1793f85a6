#include "ui/shelf/tool_facts.h"

#include "core/light/materials.h"
#include "core/quantity/value_text.h"
#include "ui/common/child_table.h"
#include "ui/shelf/words.h"

#include <QLocale>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr double daysAYear = 365.25;
constexpr double shownDistances_cm[] = { 20, 30, 50 };
constexpr double highestStrength = 1e9; // of a lamp's spectrum, which is relative

QString number(double value, int digits)
{
    return QLocale().toString(value, 'f', digits);
}

QString textAt(const Notebook& notebook, Ref ref, const char* column)
{
    return notebook.get(ref, QString::fromLatin1(column)).text().value_or(QString()).trimmed();
}

Result<light::SpectrumTable> readSpectrumOf(const QString& column, const QString& text)
{
    return light::spectrumOfPairs(text, 0, column == QLatin1String("cover_spectrum") ? 1 : highestStrength);
}

/// One sentence about a spectrum that can be read: how far it reaches, and where it is highest.
QString aboutSpectrum(const light::SpectrumTable& spectrum, const QString& highest)
{
    const auto top = std::max_element(spectrum.value.begin(), spectrum.value.end()) - spectrum.value.begin();
    return ShelfWords::tr("Spectrum: %1 wavelengths from %2 to %3 nm, %4 %5 nm.")
        .arg(QString::number(spectrum.nm.size()), number(spectrum.nm.front(), 0), number(spectrum.nm.back(), 0),
            highest, number(spectrum.nm[size_t(top)], 0));
}

void tellSpectrum(ToolFacts& facts, const QString& column, const QString& text, const QString& highest)
{
    if (text.isEmpty())
        return;
    const auto spectrum = readSpectrumOf(column, text);
    if (spectrum) {
        facts.sentences << aboutSpectrum(*spectrum, highest);
        return;
    }
    facts.warnings << ShelfWords::tr("spectrum cannot be read");
    facts.sentences << ShelfWords::tr("Its spectrum is not used: %1").arg(spectrum.error().says);
}

} // namespace

QString spectrumProblem(const QString& column, const QString& text)
{
    if (text.trimmed().isEmpty())
        return {};
    const auto spectrum = readSpectrumOf(column, text);
    return spectrum ? QString() : spectrum.error().says;
}

ToolFacts lampFacts(const Notebook& notebook, qint64 lamp)
{
    ToolFacts facts;
    const Ref ref { Entity::Lamp, lamp };
    const auto read = notebook.get(ref, u"lamp_uva_w_m2");
    const auto at = notebook.get(ref, u"lamp_measured_at_cm");
    if (read.number() && at.number() && *at.number() > 0) {
        const bool measured = read.evidence == Evidence::Measured && at.evidence == Evidence::Measured;
        QStringList reckoned;
        for (const double distance : shownDistances_cm)
            if (distance != *at.number())
                reckoned << ShelfWords::tr("≈%1 W/m² at %2 cm")
                                .arg(number(lightAtDistance(*read.number(), *at.number(), distance), 1),
                                    number(distance, 0));
        facts.sentences << (measured ? ShelfWords::tr("Measured: %1 W/m² at %2 cm.")
                                     : ShelfWords::tr("Not measured, but taken: %1 W/m² at %2 cm."))
                               .arg(number(*read.number(), 1), QLocale().toString(*at.number()))
                        << ShelfWords::tr(
                               "Reckoned from that by the square law: %1. It holds where the lamp is small beside its "
                               "distance; the light of a long tube or a wide panel falls off less.")
                               .arg(reckoned.join(QStringLiteral(", ")));
        if (!measured)
            facts.warnings << ShelfWords::tr("light not measured");
    } else {
        facts.warnings << ShelfWords::tr("light not measured");
        facts.sentences << (read.number()
                ? ShelfWords::tr("Its ultraviolet is known, but not at what distance: nothing can be reckoned from it.")
                : ShelfWords::tr("Its ultraviolet was not measured, so that its dose cannot be reckoned."));
    }
    const auto spectrum = textAt(notebook, ref, "lamp_spectrum");
    tellSpectrum(facts, QStringLiteral("lamp_spectrum"), spectrum, ShelfWords::tr("strongest at"));
    if (spectrum.isEmpty() || !readSpectrumOf(QStringLiteral("lamp_spectrum"), spectrum))
        facts.sentences << (light::lampSpectrum(textAt(notebook, ref, "lamp_kind"))
                ? ShelfWords::tr("A typical spectrum of its kind stands in for its own.")
                : ShelfWords::tr("No typical spectrum of its kind is kept, and it has none of its own."));
    return facts;
}

ToolFacts coverFacts(const Notebook& notebook, qint64 cover)
{
    ToolFacts facts;
    const auto text = textAt(notebook, { Entity::Cover, cover }, "cover_spectrum");
    tellSpectrum(facts, QStringLiteral("cover_spectrum"), text, ShelfWords::tr("lets most through at"));
    if (const auto spectrum = readSpectrumOf(QStringLiteral("cover_spectrum"), text);
        spectrum && !spectrum->covers(315, 400))
        facts.sentences << ShelfWords::tr(
            "It does not reach from 315 to 400 nm, so that the share or the material counts instead.");
    return facts;
}

ToolFacts cardFacts(const Notebook& notebook, qint64 card, const Instant& now)
{
    ToolFacts facts;
    const Ref ref { Entity::Card, card };
    const QLocale locale;
    std::vector<double> densities;
    int patches = 0;
    bool rising = true;
    const auto& table = notebook.table(Entity::CardPatch);
    for (const int row : childrenInOrder(notebook, Entity::CardPatch, card)) {
        ++patches;
        if (const auto density = notebook.get({ Entity::CardPatch, table.id(row) }, u"patch_density").number()) {
            rising = rising && (densities.empty() || *density >= densities.back());
            densities.push_back(*density);
        }
    }
    if (patches == 0) {
        facts.warnings << ShelfWords::tr("no patches");
        facts.sentences << ShelfWords::tr("It has no patches yet: a photo cannot be measured against it.");
    } else if (densities.empty()) {
        facts.sentences << ShelfWords::tr("Patches: %1, none with a density.").arg(patches);
    } else {
        const auto [low, high] = std::minmax_element(densities.begin(), densities.end());
        QString says = ShelfWords::tr("Patches: %1, density %2 to %3.")
                           .arg(QString::number(patches), number(*low, 2), number(*high, 2));
        if (const int without = patches - int(densities.size()); without > 0)
            says += QLatin1Char(' ') + ShelfWords::tr("Without a density: %1.").arg(without);
        facts.sentences << says;
    }
    if (!rising) {
        facts.warnings << ShelfWords::tr("not in order");
        facts.sentences << ShelfWords::tr(
            "The densities do not rise with the number of the patch, which counts from the lightest.");
    }
    const auto& by_field = notebook.catalogue().columnField(Entity::Card, u"card_known_by");
    const auto by = notebook.get(ref, u"card_known_by");
    const auto since = notebook.get(ref, u"card_known_on").time();
    const double days = since ? minutesBetween(*since, now) / (24 * 60) : 0;
    QString known = by.has() ? ShelfWords::tr("Known by: %1").arg(displayText(by_field, by, locale))
                             : ShelfWords::tr("How the densities are known is not recorded");
    known += since ? ShelfWords::tr(", since %1 (%2 years).")
                         .arg(since->toDateTime().date().toString(Qt::ISODate), number(days / daysAYear, 1))
                   : ShelfWords::tr("; since when is not recorded.");
    facts.sentences << known;
    if (!by.has() || by.text() == QStringLiteral("assumed")) {
        facts.warnings << ShelfWords::tr("only assumed");
        facts.sentences << ShelfWords::tr("Readings from it are assumed as well, however good the photo is.");
    }
    if (since && days > cardKeepsDays) {
        facts.warnings << ShelfWords::tr("old");
        facts.sentences << ShelfWords::tr("That is more than two years ago; cards yellow. Have it measured again.");
    }
    return facts;
}

} // namespace washfast::ui
