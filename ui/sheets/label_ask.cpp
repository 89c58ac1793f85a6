#include "ui/sheets/label_ask.h"

#include "ui/sheets/words.h"

#include <QFileInfo>

namespace washfast::ui::sheets {

std::optional<LabelPlace> askLabelPlace(Dialogs& dialogs, QWidget* parent, const QString& title)
{
    QStringList names;
    for (const auto& sheet : chemistry::labelSheets())
        names << sheet.name;
    const auto which = dialogs.question(parent, title,
        SheetsWords::tr("What is it printed on? Print at full size, without fitting to the page."), names);
    if (!which)
        return std::nullopt;
    LabelPlace place { chemistry::labelSheets()[size_t(*which)], 0 };
    if (!place.sheet.cut_marks) {
        const auto first = dialogs.askText(parent, title,
            SheetsWords::tr("First free label of the sheet, 1 to %1, counted along the rows").arg(place.sheet.places()),
            QStringLiteral("1"));
        if (!first)
            return std::nullopt;
        place.first = qBound(1, first->toInt(), place.sheet.places()) - 1;
    }
    return place;
}

std::optional<QString> saveLabels(
    Dialogs& dialogs, QWidget* parent, const QString& title, const QString& name, const std::vector<Label>& labels)
{
    const auto place = askLabelPlace(dialogs, parent, title);
    if (!place)
        return std::nullopt;
    const auto path
        = dialogs.saveFile(parent, title, name + QStringLiteral(".pdf"), { SheetsWords::tr("PDF (*.pdf)") });
    if (!path)
        return std::nullopt;
    if (const auto written = writeLabels(*path, place->sheet, labels, place->first); !written) {
        dialogs.error(parent, title, written.error().says, written.error().where);
        return std::nullopt;
    }
    return QFileInfo(*path).fileName();
}

} // namespace washfast::ui::sheets
