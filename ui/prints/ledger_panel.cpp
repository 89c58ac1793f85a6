#include "ui/prints/ledger_panel.h"

#include "ui/prints/ledger_bar.h"

#include <QHeaderView>
#include <QLabel>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

enum LedgerColumn { What, Step, Density, HowKnown, columnCount };

QString number(double value, bool sign)
{
    const auto text = QLocale().toString(std::abs(value), 'f', 2);
    return (value < -0.004 ? QStringLiteral("−") : sign && value > 0.004 ? QStringLiteral("+") : QString()) + text;
}

QString knownWord(Evidence evidence)
{
    switch (evidence) {
    case Evidence::Measured:
        return LedgerPanel::tr("measured");
    case Evidence::Estimated:
        return LedgerPanel::tr("≈ estimated");
    case Evidence::Assumed:
        return LedgerPanel::tr("(assumed)");
    }
    return {};
}

} // namespace

LedgerPanel::LedgerPanel(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    title_ = new QLabel(this);
    title_->setWordWrap(true);
    column->addWidget(title_);
    table_ = new QTableWidget(this);
    table_->setAccessibleName(tr("Where the blue went"));
    table_->setColumnCount(columnCount);
    table_->setHorizontalHeaderLabels({ tr("Line"), tr("Net density"), tr("Change"), tr("Known by") });
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    styleTable(*table_);
    table_->setAlternatingRowColors(false);
    table_->setItemDelegateForColumn(Step, new LedgerBar(services.look, this));
    table_->horizontalHeader()->setSectionResizeMode(Step, QHeaderView::Stretch);
    column->addWidget(table_, 1);
    below_ = new QLabel(this);
    below_->setWordWrap(true);
    column->addWidget(below_);
    connect(table_, &QTableWidget::cellActivated, this, [this](int row, int) {
        if (row >= 0 && row < int(fields_.size()) && !fields_[size_t(row)].isEmpty())
            Q_EMIT fieldWanted(fields_[size_t(row)].front());
    });
    setTheme(services.look.theme());
}

void LedgerPanel::setTheme(const Theme& theme)
{
    auto colours = below_->palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    below_->setPalette(colours);
    table_->viewport()->update();
}

QString LedgerPanel::words() const
{
    return title_->text() + QLatin1Char('\n') + below_->text();
}

void LedgerPanel::setPrint(qint64 print)
{
    const int row = services_.desk.notebook().prints().find(print);
    if (row < 0)
        return showNothing({});
    if (!services_.desk.complete())
        return showNothing(tr("The notebook is still being read: good prints to compare with are not all there yet."));
    const auto ledger = causes::whereTheBlueWent(services_.desk.reader(), row);
    if (!ledger)
        return showNothing(ledger.error().says);
    showLedger(*ledger);
}

void LedgerPanel::showNothing(const QString& why)
{
    fields_.clear();
    table_->setRowCount(0);
    table_->hide();
    title_->setText(why);
    below_->clear();
}

void LedgerPanel::showLedger(const causes::Ledger& ledger)
{
    table_->show();
    const double change = ledger.end - ledger.start;
    title_->setText(change < 0
            ? tr("Good prints reach a net density of %1; this one has %2. The ledger shares out what is missing: %3.")
                  .arg(number(ledger.start, false), number(ledger.end, false), number(-change, false))
            : tr("Good prints reach a net density of %1; this one has %2, so nothing is missing.")
                  .arg(number(ledger.start, false), number(ledger.end, false)));
    fields_.clear();
    table_->setRowCount(int(ledger.lines.size()) + 2);
    double most = std::max(ledger.start, ledger.end);
    double running = ledger.start;
    for (const auto& line : ledger.lines) {
        running += line.density;
        most = std::max(most, running);
    }
    int row = 0;
    const auto put = [&](const QString& what, double from, double to, bool whole, const QString& amount,
                         const QString& known, const QString& tip, const QStringList& fields) {
        const QString texts[columnCount] = { what, QString(), amount, known };
        for (int column = 0; column < columnCount; ++column) {
            auto* item = new QTableWidgetItem(texts[column]);
            item->setToolTip(tip);
            if (column == Density)
                item->setTextAlignment(figureAlignment);
            if (column == Step) {
                item->setData(LedgerBar::FromRole, from);
                item->setData(LedgerBar::ToRole, to);
                item->setData(LedgerBar::MostRole, most * 1.02);
                item->setData(LedgerBar::WholeRole, whole);
                item->setData(Qt::AccessibleTextRole, tr("from %1 to %2").arg(number(from, false), number(to, false)));
            }
            table_->setItem(row, column, item);
        }
        fields_.push_back(fields);
        ++row;
    };
    put(tr("Good prints"), 0, ledger.start, true, number(ledger.start, false), knownWord(ledger.start_evidence),
        ledger.start_says, {});
    running = ledger.start;
    for (const auto& line : ledger.lines) {
        put(line.label, running, running + line.density, false, number(line.density, true), knownWord(line.evidence),
            line.note, line.fields);
        running += line.density;
    }
    put(tr("This print"), 0, ledger.end, true, number(ledger.end, false), knownWord(Evidence::Measured), {},
        { ledger.end_field });
    table_->resizeColumnToContents(What);
    table_->resizeColumnToContents(Density);
    table_->resizeColumnToContents(HowKnown);
    QStringList below { ledger.start_says };
    for (const auto& one : ledger.cannot_say)
        below << QStringLiteral("? ") + one;
    below << ledger.method;
    below.removeAll(QString());
    below_->setText(below.join(QLatin1Char('\n')));
}

} // namespace washfast::ui
