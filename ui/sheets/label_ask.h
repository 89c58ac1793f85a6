// Asks where labels are printed to, and writes them: shared by all that print labels.
#pragma once

#include "core/chemistry/label.h"
#include "ui/common/dialogs.h"
#include "ui/sheets/label_paint.h"

namespace washfast::ui::sheets {

/// Which sheet of labels, and where on it.
struct LabelPlace {
    chemistry::LabelSheet sheet;
    int first = 0; // place of the first label, from 0
};

/// Nothing when the person turned back.
[[nodiscard]] std::optional<LabelPlace> askLabelPlace(Dialogs& dialogs, QWidget* parent, const QString& title);

/// Asks for sheet and file and writes the PDF. The name of the file that was written, without its folder; nothing when
/// the person turned back or it could not be written, which has been told then.
[[nodiscard]] std::optional<QString> saveLabels(
    Dialogs& dialogs, QWidget* parent, const QString& title, const QString& name, const std::vector<Label>& labels);

} // namespace washfast::ui::sheets
