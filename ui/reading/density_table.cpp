#include "ui/reading/density_table.h"

#include "ui/common/theme.h"

#include <QHeaderView>
#include <QLocale>
#include <cmath>

namespace washfast::ui {

namespace {

QString densityText(const density::ChannelReading& reading)
{
    if (!reading.density)
        return QString(QChar(0x2013));
    const QLocale locale;
    const auto number = locale.toString(*reading.density, 'f', 2);
    if (reading.at_least)
        return DensityTable::tr("at least %1").arg(number);
    return reading.standard_error
        ? QStringLiteral("%1 %2 %3").arg(number).arg(QChar(0xB1)).arg(locale.toString(*reading.standard_error, 'f', 3))
        : number;
}

QString oneDecimal(double value)
{
    const double rounded = std::round(10 * value) / 10;
    return QLocale().toString(rounded == 0 ? 0.0 : rounded, 'f', 1); // no minus before a zero
}

QString offText(const density::Measurement& measured, const QString& name)
{
    const auto found = std::find_if(measured.references.begin(), measured.references.end(),
        [&](const density::ReferenceReading& reference) { return reference.name == name; });
    if (found == measured.references.end())
        return {};
    if (!found->used || !found->residual)
        return DensityTable::tr("not used");
    const auto number = QLocale().toString(std::abs(*found->residual), 'f', 3);
    return *found->residual < 0 ? QChar(0x2212) + number : QLatin1Char('+') + number;
}

} // namespace

DensityTable::DensityTable(QWidget* parent)
    : QTableWidget(0, columns, parent)
{
    setAccessibleName(tr("Densities of the regions"));
    setHorizontalHeaderLabels({ tr("Region"), tr("Print"), tr("Red density"), tr("Green density"), tr("Blue density"),
        tr("Visual density"), tr("L*  a*  b*"), tr("Clipped"), tr("Off the fit") });
    horizontalHeaderItem(OffTheFit)->setToolTip(
        tr("Density given for a reference less the density that the fitted response has for it."));
    for (int c = Red; c < columns; ++c)
        horizontalHeaderItem(c)->setTextAlignment(figureAlignment);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionMode(QAbstractItemView::SingleSelection);
    styleTable(*this);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    for (int c : { Name, OfPrint })
        horizontalHeader()->setSectionResizeMode(c, QHeaderView::ResizeToContents);
}

int DensityTable::rowOf(Spot::Kind kind, size_t of) const
{
    const auto found = std::find_if(spots_.begin(), spots_.end(), [&](const Spot& spot) {
        return (spot.kind == Spot::Kind::Region) == (kind == Spot::Kind::Region) && spot.of == of;
    });
    return found == spots_.end() ? -1 : int(found - spots_.begin());
}

const Spot* DensityTable::spotAt(int row) const
{
    return row >= 0 && row < int(spots_.size()) ? &spots_[size_t(row)] : nullptr;
}

void DensityTable::fill(const MarkedPhoto* photo, const Notebook& notebook, qint64 only)
{
    spots_.clear();
    if (photo && photo->measured)
        spots_ = photo->spots;
    else if (photo) // what is marked is listed while it is being measured, or cannot be
        for (size_t i = 0; i < photo->marks.size(); ++i)
            spots_.push_back({ Spot::Kind::Region, i, 0, photo->marks[i].corners, markName(*photo, i) });
    setRowCount(int(spots_.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const auto& spot = spots_[size_t(row)];
        QStringList cells;
        for (int c = 0; c < columns; ++c)
            cells << QString();
        cells[Name] = spot.name;
        const bool enters = spot.kind == Spot::Kind::Step
            || (spot.kind == Spot::Kind::Region && !whereKey(photo->marks[spot.of].role).isEmpty());
        if (const auto print = enters ? printOf(*photo, spot, only) : 0)
            cells[OfPrint] = notebook.nameOf({ Entity::Print, print });
        if (photo->measured && size_t(row) < photo->measured->regions.size()) {
            const auto& region = photo->measured->regions[size_t(row)];
            cells[Red] = densityText(region.red);
            cells[Green] = densityText(region.green);
            cells[Blue] = densityText(region.blue);
            cells[Visual] = densityText(region.visual);
            const QLocale locale;
            if (region.lab)
                cells[LabColour]
                    = QStringLiteral("%1  %2  %3")
                          .arg(oneDecimal(region.lab->l), oneDecimal(region.lab->a), oneDecimal(region.lab->b));
            cells[Clipped] = tr("%1 %").arg(locale.toString(100 * region.clipped_share, 'f', 1));
            cells[OffTheFit] = offText(*photo->measured, spot.name);
        }
        put(row, cells);
    }
}

void DensityTable::put(int row, const QStringList& cells)
{
    for (int c = 0; c < columns; ++c) {
        auto* item = new QTableWidgetItem(cells[c]);
        if (c >= Red)
            item->setTextAlignment(figureAlignment);
        setItem(row, c, item);
    }
}

} // namespace washfast::ui
