#include "ui/reading/row_panel.h"

#include "ui/reading/marked_rows.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QSpinBox>

namespace washfast::ui {

RowPanel::RowPanel(QWidget* parent)
    : QWidget(parent)
{
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, 0, 0, 0);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    about_->setAccessibleName(tr("The chosen row"));
    about_->setToolTip(tr("Its corners can be moved one by one; Ctrl and the arrows make it wider and longer."));
    form->addRow(about_);
    count_ = new QSpinBox(this);
    count_->setAccessibleName(tr("Places of the chosen row"));
    count_->setRange(1, 60); // 1 stands for the text
    count_->setSpecialValueText(tr("find them in the photo"));
    form->addRow(tr("Steps of the &row"), count_);
    end_ = new QComboBox(this);
    end_->setAccessibleName(tr("Where number 1 lies"));
    form->addRow(tr("Number &1"), end_);
    const auto tell = [this] {
        if (!showing_)
            Q_EMIT changed(count_->value() > 1 ? count_->value() : 0, end_->currentIndex() == 1);
    };
    connect(count_, &QSpinBox::valueChanged, this, tell);
    connect(end_, &QComboBox::activated, this, tell);
    hide();
}

void RowPanel::showRow(const Marked* photo, std::optional<size_t> row)
{
    setVisible(photo && row && *row < photo->rows.size());
    if (!isVisibleTo(parentWidget()))
        return;
    showing_ = true;
    const auto& marked = photo->rows[*row];
    const bool wedge = marked.kind == MarkedRow::Kind::Wedge, card = isReference(marked, photo->references);
    const int count = countOf(marked, photo->references);
    about_->setText(rowName(*row) + QStringLiteral(": ")
        + (wedge ? (marked.count == 0 && count > 0 ? tr("%n steps found. Number 1 is the clearest step of the wedge, "
                                                        "as a rule the deepest blue.",
                        nullptr, count)
                                                   : tr("Number 1 is the clearest step of the wedge, as a rule the "
                                                        "deepest blue."))
                : card ? tr("%n patches of the card %1. Number 1 is the lightest.", nullptr, count)
                             .arg(photo->references.card_name)
                       : tr("%n patches, measured to be kept as a card. Number 1 is the lightest.", nullptr, count)));
    count_->setEnabled(!card);
    count_->setSpecialValueText(card ? QString::number(count) : tr("find them in the photo"));
    count_->setValue(card ? 1 : std::max(1, marked.count));
    end_->clear();
    end_->addItem(tr("at the start of the row"));
    end_->addItem(tr("at its end"));
    end_->setCurrentIndex(marked.turned ? 1 : 0);
    showing_ = false;
}

} // namespace washfast::ui
