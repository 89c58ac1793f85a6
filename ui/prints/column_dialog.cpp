#include "ui/prints/column_dialog.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int keyRole = Qt::UserRole;
}

ColumnDialog::ColumnDialog(
    const Catalogue& catalogue, const QStringList& chosen, const QStringList& defaults, QWidget* parent)
    : QDialog(parent)
    , catalogue_(catalogue)
{
    setWindowTitle(tr("Columns of the table"));
    auto* column = new QVBoxLayout(this);
    search_ = new QLineEdit(this);
    search_->setPlaceholderText(tr("Look for a field"));
    search_->setAccessibleName(tr("Look for a field"));
    search_->setClearButtonEnabled(true);
    column->addWidget(search_);
    auto* lists = new QHBoxLayout;
    column->addLayout(lists, 1);
    all_ = new QListWidget(this);
    all_->setAccessibleName(tr("All fields, by station"));
    lists->addWidget(all_, 3);
    auto* side = new QVBoxLayout;
    lists->addLayout(side, 2);
    side->addWidget(new QLabel(tr("In this order:"), this));
    order_ = new QListWidget(this);
    order_->setAccessibleName(tr("Chosen columns in order"));
    order_->setDragDropMode(QAbstractItemView::InternalMove);
    side->addWidget(order_, 1);
    auto* moves = new QHBoxLayout;
    side->addLayout(moves);
    const std::pair<QString, int> steps[] = { { tr("&Up"), -1 }, { tr("&Down"), 1 } };
    for (const auto& [text, by] : steps) {
        auto* button = new QPushButton(text, this);
        button->setAutoDefault(false);
        connect(button, &QPushButton::clicked, this, [this, by = by] { move(by); });
        moves->addWidget(button);
    }
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(tr("Show these"), QDialogButtonBox::AcceptRole)->setDefault(true);
    auto* usual = buttons->addButton(tr("The usual ones"), QDialogButtonBox::ResetRole);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(usual, &QPushButton::clicked, this, [this, defaults] { fill(defaults); });
    connect(search_, &QLineEdit::textChanged, this, &ColumnDialog::search);
    connect(all_, &QListWidget::itemChanged, this, &ColumnDialog::take);
    fill(chosen);
    resize(720, 560);
}

void ColumnDialog::fill(const QStringList& chosen)
{
    filling_ = true;
    all_->clear();
    order_->clear();
    std::optional<Station> station;
    for (const auto& field : catalogue_.printFields()) {
        if (station != field.station) {
            station = field.station;
            auto* heading = new QListWidgetItem(stationLabel(*station), all_);
            auto bold = heading->font();
            bold.setBold(true);
            heading->setFont(bold);
            heading->setFlags(Qt::ItemIsEnabled);
        }
        auto* item = new QListWidgetItem(field.labelWithUnit(), all_);
        item->setData(keyRole, field.key);
        item->setToolTip(field.description);
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
        item->setCheckState(chosen.contains(field.key) ? Qt::Checked : Qt::Unchecked);
    }
    for (const auto& key : chosen)
        if (const auto* field = catalogue_.findPrintField(key)) {
            auto* item = new QListWidgetItem(field->labelWithUnit(), order_);
            item->setData(keyRole, key);
        }
    filling_ = false;
    search(search_->text());
}

void ColumnDialog::search(const QString& text)
{
    for (int i = 0; i < all_->count(); ++i) {
        auto* item = all_->item(i);
        const auto key = item->data(keyRole).toString();
        const bool hit = text.isEmpty()
            || (!key.isEmpty()
                && (item->text().contains(text, Qt::CaseInsensitive) || key.contains(text, Qt::CaseInsensitive)));
        item->setHidden(!hit);
    }
}

void ColumnDialog::take()
{
    if (filling_)
        return;
    const auto now = chosen();
    for (int i = 0; i < all_->count(); ++i) {
        const auto* item = all_->item(i);
        const auto key = item->data(keyRole).toString();
        if (key.isEmpty())
            continue;
        const bool wanted = item->checkState() == Qt::Checked;
        if (wanted && !now.contains(key)) {
            auto* added = new QListWidgetItem(item->text(), order_);
            added->setData(keyRole, key);
        } else if (!wanted && now.contains(key)) {
            delete order_->takeItem(int(now.indexOf(key)));
            return;
        }
    }
}

void ColumnDialog::move(int by)
{
    const int at = order_->currentRow();
    if (at < 0 || at + by < 0 || at + by >= order_->count())
        return;
    auto* item = order_->takeItem(at);
    order_->insertItem(at + by, item);
    order_->setCurrentRow(at + by);
}

QStringList ColumnDialog::chosen() const
{
    QStringList keys;
    for (int i = 0; i < order_->count(); ++i)
        keys << order_->item(i)->data(keyRole).toString();
    return keys;
}

} // namespace washfast::ui
