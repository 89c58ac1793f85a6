#include "app/window/wiring.h"

#include "app/window/words.h"
#include "ui/bench/bench_view.h"
#include "ui/beside/beside_view.h"
#include "ui/causes/causes_view.h"
#include "ui/curves/curves_view.h"
#include "ui/mixing/mixing_view.h"
#include "ui/prints/prints_view.h"
#include "ui/shelf/shelf_view.h"
#include "ui/sunlight/sunlight_view.h"
#include "ui/term/term_view.h"

namespace washfast {

namespace {

template <typename V> ViewEntry entry(const QString& title, const QString& hint)
{
    return { title, hint, [](const ui::Services& services) -> ui::View* { return new V(services); } };
}

} // namespace

std::vector<ViewEntry> allViews()
{
    return {
        entry<ui::BenchView>(
            WindowWords::tr("Bench"), WindowWords::tr("The prints of the running session, station by station")),
        entry<ui::PrintsView>(WindowWords::tr("Prints"), WindowWords::tr("Every print, and one print's page")),
        entry<ui::BesideView>(WindowWords::tr("Side by side"), WindowWords::tr("Two to eight prints as columns")),
        entry<ui::CurvesView>(WindowWords::tr("Curves"),
            WindowWords::tr("Density against dose and dryness, characteristic curves, the negative")),
        entry<ui::CausesView>(
            WindowWords::tr("Causes"), WindowWords::tr("Why a batch failed, or what these prints cannot tell")),
        entry<ui::MixingView>(WindowWords::tr("Mixing"),
            WindowWords::tr("Amounts to weigh, steps, the audit of a mix, labels and sheets")),
        entry<ui::SunlightView>(
            WindowWords::tr("Sunlight"), WindowWords::tr("A day's and a year's ultraviolet, and a plan of the lesson")),
        entry<ui::TermView>(WindowWords::tr("Term"), WindowWords::tr("A term's results, in and out")),
        entry<ui::ShelfView>(WindowWords::tr("Shelf"), WindowWords::tr("Mixes, papers, covers, sites")),
    };
}

void wireView(MainWindow& window, ui::View& view)
{
    QObject::connect(&view, &ui::View::openPrint, &window, [&window](qint64 print) {
        if (auto* prints = qobject_cast<ui::PrintsView*>(window.go(window.indexOf(WindowWords::tr("Prints")))))
            prints->showPrint(print);
    });
    QObject::connect(&view, &ui::View::showFiltered, &window, [&window](const QString& filter) {
        if (auto* prints = qobject_cast<ui::PrintsView*>(window.go(window.indexOf(WindowWords::tr("Prints")))))
            prints->setFilter(filter);
    });
    QObject::connect(&view, &ui::View::sideBySide, &window, [&window](const QVector<qint64>& prints) {
        if (auto* beside = qobject_cast<ui::BesideView*>(window.go(window.indexOf(WindowWords::tr("Side by side")))))
            beside->setPrints(prints);
    });
}

QString readOnlySentence(const store::NotebookFile& file)
{
    switch (file.access()) {
    case store::Access::ReadWrite:
        return {};
    case store::Access::ReadOnlyTooNew:
        return WindowWords::tr(
            "This notebook was written by a newer version of Washfast (schema %1). It is shown, and cannot be "
            "changed here.")
            .arg(file.schema());
    case store::Access::ReadOnlyPlace:
        return WindowWords::tr(
            "This notebook lies where nothing can be written. It is shown, and cannot be changed. Copy it to "
            "another place to go on.");
    case store::Access::ReadOnlyDamaged:
        return WindowWords::tr("Nothing is written into this notebook, and prints may be missing. %1")
            .arg(file.damage() ? file.damage()->says : QString());
    }
    return {};
}

QString standingSentence(const store::NotebookFile& file)
{
    return file.loss() ? file.loss()->error.says : readOnlySentence(file);
}

QString cautionText()
{
    return WindowWords::tr(
        "Common cautions. Follow your local rules and the supplier's safety data sheets; they come first.\n\n"
        "Eyes and skin: goggles and gloves when a mix is made; iron(III) chloride stains, burns and eats metal.\n"
        "Acid and heat: never bring strong acid or heat to hexacyanoferrate; it can give off hydrogen cyanide. "
        "Citric acid in the "
        "rinse at room temperature is the published norm.\n"
        "Gas: a mix that fizzes stays open until it has stood quiet; a stoppered bottle can burst.\n"
        "Sun: from UV Index 3 on hat, sleeves and shade while waiting; no looking at the glare of glass frames.\n"
        "Mains: hair dryers away from the trays, dry hands, behind a residual-current device.\n"
        "Glass: tape the edges. Waste: collect, label, no bleach or acid into the jar; local rules.");
}

QString aboutText()
{
    return WindowWords::tr(
        "Washfast %1\n\nA lab notebook for blue printing with iron salts.\n"
        "Free software under the GNU General Public License, version 3 or later. It comes without any warranty.\n"
        "It does not use the network. Pupils are codes, never names.")
        .arg(QStringLiteral(WASHFAST_VERSION));
}

} // namespace washfast
