#include "ui/term/import_dialog.h"

#include "core/files/read_once.h"
#include "ui/term/import_model.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QTableWidget>
#include <QVBoxLayout>

namespace washfast::ui {

ImportDialog::ImportDialog(const Services& services, QWidget* parent)
    : QDialog(parent)
    , services_(services)
{
    setWindowTitle(tr("Import a table of prints"));
    auto* column = new QVBoxLayout(this);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    auto* open = new QPushButton(tr("&Choose a file..."), this);
    bar->addWidget(open);
    file_ = new QLabel(tr("One row a print, headings in the first line. Nothing is written until you say so."), this);
    file_->setWordWrap(true);
    bar->addWidget(file_, 1);
    auto* split = new QSplitter(Qt::Vertical, this);
    split->setChildrenCollapsible(false);
    column->addWidget(split, 1);
    headings_ = new QTableWidget(split);
    headings_->setAccessibleName(tr("What the headings mean"));
    headings_->setColumnCount(3);
    headings_->setHorizontalHeaderLabels({ tr("Heading"), tr("Means"), tr("Note") });
    headings_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    styleTable(*headings_);
    headings_->horizontalHeader()->setStretchLastSection(true);
    split->addWidget(headings_);
    model_ = new ImportModel(this);
    rows_ = new QTableView(split);
    rows_->setAccessibleName(tr("What each row becomes"));
    rows_->setModel(model_);
    styleTable(*rows_);
    rows_->setWordWrap(true);
    rows_->horizontalHeader()->setStretchLastSection(true);
    split->addWidget(rows_);
    summary_ = new QLabel(this);
    summary_->setWordWrap(true);
    column->addWidget(summary_);
    keep_good_ = new QCheckBox(tr("Import the &good rows although others are refused"), this);
    column->addWidget(keep_good_);
    auto* buttons = new QDialogButtonBox(this);
    import_ = buttons->addButton(tr("&Import"), QDialogButtonBox::AcceptRole);
    import_->setEnabled(false);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    column->addWidget(buttons);
    connect(open, &QPushButton::clicked, this, &ImportDialog::choose);
    connect(keep_good_, &QCheckBox::toggled, this, &ImportDialog::look);
    connect(buttons, &QDialogButtonBox::accepted, this, &ImportDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    resize(980, 680);
}

void ImportDialog::choose()
{
    if (const auto path = services_.dialogs.openFile(
            this, tr("A table of prints"), {}, { tr("Tables (*.csv *.tsv *.txt)"), tr("All files (*)") }))
        load(*path);
}

bool ImportDialog::load(const QString& path)
{
    if (store::isSameFile(path, services_.desk.file().path())) {
        services_.dialogs.error(this, windowTitle(), tr("This is the notebook itself, not a table."), path);
        return false;
    }
    const auto bytes = files::readOnce(path, exchange::DelimitedLimits().bytes, files::From::DiskOnly);
    if (!bytes) {
        services_.dialogs.error(this, windowTitle(), bytes.error().says, path);
        return false;
    }
    auto table = exchange::readDelimited(*bytes);
    if (!table.readable()) {
        services_.dialogs.error(this, windowTitle(), table.notes.back().sentence(), path);
        return false;
    }
    services_.desk.waitUntilComplete();
    path_ = path;
    table_ = std::move(table);
    choices_.clear();
    file_->setText(tr("%1: %n row(s)", nullptr, int(table_.rows.size())).arg(QFileInfo(path).fileName()));
    look();
    showMapping();
    return true;
}

void ImportDialog::look()
{
    if (path_.isEmpty())
        return;
    const auto mapping = exchange::mapHeadings(table_.header, services_.desk.catalogue(), choices_);
    preview_ = exchange::previewImport(table_, mapping, services_.desk.notebook());
    model_->setPreview(preview_);
    rows_->resizeColumnsToContents();
    using State = exchange::ImportRow::State;
    const int fresh = preview_.count(State::New);
    const int refused = preview_.count(State::Refused);
    QStringList lines {
        tr("%1 new, %2 there already, %3 refused.").arg(fresh).arg(preview_.count(State::AlreadyThere)).arg(refused)
    };
    for (const auto& fault : preview_.faults)
        lines << QStringLiteral("✕ ") + fault;
    for (const auto& warning : preview_.warnings)
        lines << QStringLiteral("! ") + warning;
    summary_->setText(lines.mid(0, 6).join(QLatin1Char('\n')));
    keep_good_->setEnabled(refused > 0);
    import_->setEnabled(preview_.faults.isEmpty() && fresh > 0 && (refused == 0 || keep_good_->isChecked()));
}

QString ImportDialog::summary() const
{
    return summary_->text();
}

void ImportDialog::showMapping()
{
    const auto& columns = preview_.mapping.columns;
    const auto& fields = services_.desk.catalogue().printFields();
    headings_->setRowCount(int(columns.size()));
    for (int row = 0; row < int(columns.size()); ++row) {
        const auto& column = columns[size_t(row)];
        headings_->setItem(row, 0, new QTableWidgetItem(column.heading));
        auto* means = new QComboBox;
        means->setAccessibleName(tr("What \"%1\" means").arg(column.heading));
        means->addItem(tr("(left out)"), QStringLiteral(""));
        means->addItem(tr("the day of the row"), QStringLiteral("date"));
        for (const auto& field : fields)
            if (exchange::isImportable(field))
                means->addItem(stationLabel(field.station) + QStringLiteral(": ") + field.labelWithUnit(), field.key);
        const auto key = column.use == exchange::ColumnUse::Field ? fields[size_t(column.field)].key
            : column.use == exchange::ColumnUse::Day              ? QStringLiteral("date")
                                                                  : QStringLiteral("");
        means->setCurrentIndex(qMax(0, means->findData(key)));
        connect(means, &QComboBox::activated, this,
            [this, means, heading = column.heading] { map(heading, means->currentData().toString()); });
        headings_->setCellWidget(row, 1, means);
        const auto unit = column.unit.isEmpty() ? QString() : tr("in %1").arg(column.unit);
        headings_->setItem(row, 2,
            new QTableWidgetItem(
                (column.fault ? QStringLiteral("✕ ") : QString()) + (column.says.isEmpty() ? unit : column.says)));
    }
    headings_->resizeColumnsToContents();
}

void ImportDialog::map(const QString& heading, const QString& key)
{
    choices_[heading] = key;
    look();
    showMapping();
}

void ImportDialog::setKeepGood(bool keep)
{
    keep_good_->setChecked(keep);
}

void ImportDialog::accept()
{
    const auto done = exchange::applyImport(
        services_.desk.file(), preview_, keep_good_->isChecked(), tr("Import %1").arg(QFileInfo(path_).fileName()));
    services_.desk.catchUp();
    if (!done) {
        services_.dialogs.error(this, tr("Nothing was imported"), done.error().says, done.error().where);
        return;
    }
    services_.dialogs.message(this, windowTitle(),
        tr("%n prints imported; already there: %1, refused: %2. Ctrl+Z takes the import back.", nullptr, done->imported)
            .arg(done->already_there)
            .arg(done->refused));
    QDialog::accept();
}

} // namespace washfast::ui
