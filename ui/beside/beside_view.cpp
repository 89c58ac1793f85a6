#include "ui/beside/beside_view.h"

#include "ui/beside/beside_model.h"
#include "ui/beside/tone_row.h"
#include "ui/common/empty_state.h"
#include "ui/reading/compare_dialog.h"

#include <QCheckBox>
#include <QClipboard>
#include <QCompleter>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QStringListModel>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {

constexpr int narrowestColumn = 112;
constexpr int widestHeading = 260;
constexpr int linesInRow = 4;
constexpr int rowRoom = 10;
constexpr int cellMargins = 20;

/// Rows that are the same in all prints are in the quiet colour.
class BesideDelegate : public QStyledItemDelegate {
public:
    BesideDelegate(const ThemeSource& look, QObject* parent)
        : QStyledItemDelegate(parent)
        , look_(look)
    {
    }
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override
    {
        QStyledItemDelegate::initStyleOption(option, index);
        if (!index.data(BesideModel::differsRole).toBool())
            option->palette.setColor(QPalette::Text, look_.theme().quiet);
    }

private:
    const ThemeSource& look_;
};

} // namespace

BesideView::BesideView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    model_ = new BesideModel(desk, this);
    auto* column = new QVBoxLayout(this);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    auto* label = new QLabel(tr("&Add print:"), this);
    add_ = new QLineEdit(this);
    add_->setPlaceholderText(tr("its code"));
    add_->setAccessibleName(tr("Add a print by its code"));
    add_->setMaximumWidth(180);
    label->setBuddy(add_);
    bar->addWidget(label);
    bar->addWidget(add_);
    auto* out = new QPushButton(tr("&Take out"), this);
    out->setToolTip(tr("Take the column with the cursor out."));
    bar->addWidget(out);
    all_ = new QCheckBox(tr("Also what is the &same"), this);
    bar->addWidget(all_);
    count_ = new QLabel(this);
    bar->addWidget(count_);
    bar->addStretch(1);
    colours_ = new QPushButton(tr("Compare co&lours..."), this);
    bar->addWidget(colours_);
    connect(colours_, &QPushButton::clicked, this, &BesideView::compareColours);
    auto* copy = new QPushButton(tr("&Copy as a table"), this);
    bar->addWidget(copy);

    pages_ = new QStackedWidget(this);
    column->addWidget(pages_, 1);
    empty_ = new EmptyState(look.theme(), this);
    empty_->setContent(tr("Nothing to compare yet"),
        tr("Choose two to eight prints in the table of prints and send them here, or type their codes above."),
        tr("Go to the running session's last prints"));
    pages_->addWidget(empty_);
    auto* page = new QWidget(this);
    auto* stack = new QVBoxLayout(page);
    stack->setContentsMargins(0, 0, 0, 0);
    table_ = new QTableView(page);
    table_->setAccessibleName(tr("Prints side by side"));
    table_->setModel(model_);
    styleTable(*table_);
    table_->setSelectionBehavior(QAbstractItemView::SelectItems);
    table_->setItemDelegate(new BesideDelegate(look, this));
    table_->setWordWrap(true);
    table_->verticalHeader()->setVisible(true);
    table_->verticalHeader()->setMaximumWidth(widestHeading);
    table_->verticalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->verticalHeader()->setStyleSheet(
        QStringLiteral("QHeaderView { border: 0 } QHeaderView::section { border: 0 }"));
    table_->verticalHeader()->setMaximumSectionSize(linesInRow * table_->fontMetrics().lineSpacing() + rowRoom);
    table_->horizontalHeader()->setMinimumSectionSize(narrowestColumn);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    tones_ = new ToneRow(*table_, look.theme(), page);
    stack->addWidget(tones_);
    stack->addWidget(table_, 1);
    pages_->addWidget(page);

    fit_.setSingleShot(true);
    connect(table_->horizontalHeader(), &QHeaderView::sectionResized, &fit_, qOverload<>(&QTimer::start));
    auto* completer = new QCompleter(this);
    auto* codes = new QStringListModel(completer);
    completer->setModel(codes);
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    add_->setCompleter(completer);
    connect(add_, &QLineEdit::textEdited, this, [this, codes] {
        if (codes->rowCount() != desk.notebook().prints().rows()) {
            QStringList all;
            for (int row = 0; row < desk.notebook().prints().rows(); ++row)
                all << desk.notebook().nameOf({ Entity::Print, desk.notebook().prints().id(row) });
            codes->setStringList(all);
        }
    });
    connect(add_, &QLineEdit::returnPressed, this, &BesideView::addTyped);
    connect(out, &QPushButton::clicked, this, &BesideView::takeOut);
    connect(all_, &QCheckBox::toggled, model_, &BesideModel::setShowAll);
    connect(copy, &QPushButton::clicked, this, &BesideView::copyTable);
    auto* shortcut = new QShortcut(QKeySequence::Copy, table_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(shortcut, &QShortcut::activated, this, &BesideView::copyTable);
    connect(tones_, &ToneRow::picked, this, [this](int at) { Q_EMIT openPrint(model_->prints().value(at)); });
    connect(table_->horizontalHeader(), &QHeaderView::sectionDoubleClicked, this,
        [this](int at) { Q_EMIT openPrint(model_->prints().value(at)); });
    connect(empty_, &EmptyState::actionTriggered, this, [this] {
        const auto prints = desk.printsOf(desk.session());
        setPrints(prints.mid(qMax(qsizetype(0), prints.size() - 3)));
    });
    connect(model_, &QAbstractItemModel::modelReset, this, &BesideView::follow);
    connect(&fit_, &QTimer::timeout, this, &BesideView::fitRows);
    connect(&look, &ThemeSource::changed, tones_, &ToneRow::setTheme);
    connect(&look, &ThemeSource::changed, empty_, &EmptyState::setTheme);
    follow();
}

void BesideView::arrive()
{
    if (model_->prints().isEmpty())
        add_->setFocus();
    else
        table_->setFocus();
}

void BesideView::setPrints(const QVector<qint64>& prints)
{
    if (prints.size() > most)
        Q_EMIT say(tr("Eight fit side by side; the first eight are shown."));
    model_->setPrints(prints.mid(0, most));
}

void BesideView::follow()
{
    std::vector<PrintTones> tones;
    for (const auto print : model_->prints())
        tones.push_back(tonesOf(desk.reader(), desk.notebook().prints().find(print)));
    tones_->setTones(tones);
    pages_->setCurrentIndex(model_->prints().isEmpty() ? 0 : 1);
    fit_.start();
    int with_photos = 0;
    for (const auto print : model_->prints())
        with_photos += desk.notebook().children(Entity::Photo, print).empty() ? 0 : 1;
    colours_->setEnabled(with_photos >= 2);
    colours_->setToolTip(with_photos >= 2 ? tr("Of two prints that have photos; choose their columns.")
                                          : tr("At least two of these prints must have a photo."));
    int differ = 0;
    for (int row = 0; row < model_->rowCount(); ++row)
        differ += model_->differs(row) ? 1 : 0;
    count_->setText(model_->prints().size() < 2 ? QString() : tr("%n row(s) differ", nullptr, differ));
}

void BesideView::fitRows()
{
    // No row lower than usual: only what does not fit on one line takes more.
    const int usual = table_->verticalHeader()->defaultSectionSize();
    const auto metrics = table_->fontMetrics();
    for (int row = 0; row < model_->rowCount(); ++row) {
        int height = usual;
        for (int column = 0; column < model_->columnCount(); ++column) {
            const QRect room(0, 0, table_->columnWidth(column) - cellMargins, 0);
            const auto text = model_->index(row, column).data().toString();
            height = qMax(height, metrics.boundingRect(room, Qt::TextWordWrap, text).height() + rowRoom);
        }
        table_->setRowHeight(row, height);
    }
}

void BesideView::addTyped()
{
    if (add_->text().trimmed().isEmpty())
        return;
    const auto id = desk.notebook().byName(Entity::Print, add_->text());
    if (!id) {
        Q_EMIT say(tr("There is no print %1.").arg(add_->text()));
        return;
    }
    if (model_->prints().size() >= most) {
        Q_EMIT say(tr("Eight fit side by side; take one out first."));
        return;
    }
    if (!model_->prints().contains(*id))
        model_->setPrints(model_->prints() + QVector<qint64> { *id });
    add_->clear();
}

void BesideView::takeOut()
{
    const int at = table_->currentIndex().column();
    auto prints = model_->prints();
    if (prints.isEmpty())
        return;
    prints.removeAt(at >= 0 ? at : prints.size() - 1);
    model_->setPrints(prints);
    if (at >= 0 && model_->rowCount() > 0)
        table_->setCurrentIndex(model_->index(0, qMin(at, int(prints.size()) - 1)));
}

void BesideView::compareColours()
{
    const auto has = [&](qint64 print) { return !desk.notebook().children(Entity::Photo, print).empty(); };
    QVector<qint64> two;
    const auto take = [&](qint64 print) {
        if (two.size() < 2 && !two.contains(print) && has(print))
            two << print;
    };
    for (const auto& index : table_->selectionModel()->selectedIndexes())
        take(model_->prints().value(index.column()));
    for (const auto print : model_->prints())
        take(print);
    if (two.size() < 2)
        return;
    const auto photos = photosToCompare(desk.notebook(), two[0], two[1]);
    auto* dialog = new CompareDialog(services(), model_->prints(), photos.first, photos.second, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->show();
}

void BesideView::copyTable()
{
    QGuiApplication::clipboard()->setText(model_->asTable());
    Q_EMIT say(tr("Copied as a table."));
}

} // namespace washfast::ui
