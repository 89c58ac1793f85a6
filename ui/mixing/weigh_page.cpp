#include "ui/mixing/weigh_page.h"

#include "core/quantity/number_text.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QScrollArea>
#include <QVBoxLayout>
#include <cmath>

namespace washfast::ui::mixing {

namespace {
constexpr int weighedWidth = 92;
}

WeighPage::WeighPage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , state_(state)
    , desk_(desk)
    , theme_(theme)
{
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(area);
    column_ = new QVBoxLayout(page);
    column_->setContentsMargins(8, 8, 8, 8);
    remarks_ = new QLabel(page);
    remarks_->setWordWrap(true);
    remarks_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    remarks_->setAccessibleName(tr("Remarks on the amounts"));
    column_->addWidget(remarks_);
    column_->addStretch(1);
    area->setWidget(page);
    outer->addWidget(area);
}

WeighPage::~WeighPage()
{
    for (const auto& row : rows_) // a line that loses the focus while all is taken down has nothing to say
        row.weighed->disconnect(this);
}

QString WeighPage::bottleText(qint64 bottle) const
{
    if (bottle == 0)
        return tr("not from the shelf");
    const auto& notebook = desk_.notebook();
    QString text = notebook.nameOf({ Entity::Chemical, bottle });
    if (const auto lot = notebook.get({ Entity::Chemical, bottle }, u"chemical_lot").text(); lot && !lot->isEmpty())
        text = tr("lot %1").arg(*lot);
    if (const auto left = chemistry::bottleState(notebook, bottle, desk_.now()).left_g)
        text += tr(", %1 g left").arg(QLocale().toString(*left, 'f', 1));
    return text;
}

QString WeighPage::insteadText(const Line& line, const chemistry::Substance& substance) const
{
    if (&substance == line.instead.front())
        return tr("as in the formula");
    const auto name = substance.form.isEmpty() ? substance.name : substance.form;
    return state_.bottlesFor(substance.key).empty() ? name : tr("%1 (on the shelf)").arg(name);
}

void WeighPage::buildRows()
{
    if (table_) { // one of its controls may be the one that asked for this
        table_->hide();
        column_->removeWidget(table_);
        table_->deleteLater();
    }
    rows_.clear();
    table_ = new QWidget(this);
    auto* grid = new QGridLayout(table_);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(14);
    grid->setVerticalSpacing(4);
    const auto heading = [&](int column, const QString& text) {
        auto* label = new QLabel(text, table_);
        label->setFont(textFont(font(), TextSize::Small));
        label->setForegroundRole(QPalette::PlaceholderText);
        grid->addWidget(label, 0, column);
    };
    heading(0, tr("To weigh"));
    heading(1, tr("Substance"));
    heading(2, tr("Take instead"));
    heading(3, tr("From bottle"));
    heading(4, tr("Really weighed, g"));
    grid->setColumnStretch(1, 3);
    grid->setColumnStretch(2, 2);
    grid->setColumnStretch(3, 2);
    const auto& lines = state_.lines();
    for (int i = 0; i < int(lines.size()); ++i) {
        const auto& line = lines[size_t(i)];
        Row row {};
        const int at = 1 + 2 * i;
        row.figure = new QLabel(table_);
        QFont large = textFont(font(), TextSize::Title);
        large.setPointSizeF(large.pointSizeF() * 1.2);
        large.setBold(true);
        row.figure->setFont(large);
        row.figure->setAlignment(figureAlignment);
        row.name = new QLabel(table_);
        row.name->setWordWrap(true);
        row.off = new QLabel(table_);
        row.off->setFont(textFont(font(), TextSize::Small));
        row.instead = new QComboBox(table_);
        row.instead->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        row.instead->setMinimumContentsLength(8);
        for (const auto* substance : line.instead)
            row.instead->addItem(insteadText(line, *substance), substance->key);
        row.instead->setEnabled(row.instead->count() > 1);
        row.instead->setAccessibleName(tr("Instead of %1").arg(line.instead.front()->name));
        row.bottle = new QComboBox(table_);
        row.bottle->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        row.bottle->setMinimumContentsLength(8);
        row.bottle->setAccessibleName(tr("Bottle of %1").arg(line.name));
        row.weighed = new QLineEdit(table_);
        row.weighed->setFixedWidth(weighedWidth);
        row.weighed->setAlignment(Qt::AlignRight);
        row.weighed->setAccessibleName(tr("Really weighed of %1, in grams").arg(line.name));
        row.under = new QLabel(table_);
        row.under->setFont(textFont(font(), TextSize::Small));
        row.under->setWordWrap(true);
        grid->addWidget(row.figure, at, 0);
        grid->addWidget(row.name, at, 1);
        grid->addWidget(row.instead, at, 2);
        grid->addWidget(row.bottle, at, 3);
        grid->addWidget(row.weighed, at, 4);
        grid->addWidget(row.off, at + 1, 0, Qt::AlignRight | Qt::AlignTop);
        grid->addWidget(row.under, at + 1, 1, 1, 4);
        connect(row.instead, &QComboBox::activated, this, [this, i] {
            const auto component = state_.lines()[size_t(i)].component;
            const auto key = rows_[size_t(i)].instead->currentData().toString();
            if (key == component)
                state_.swaps.remove(component);
            else
                state_.swaps[component] = key;
            state_.entered(component) = {};
            Q_EMIT swapped();
        });
        connect(row.bottle, &QComboBox::activated, this, [this, i] {
            state_.entered(state_.lines()[size_t(i)].component).bottle
                = rows_[size_t(i)].bottle->currentData().toLongLong();
            Q_EMIT weighed();
        });
        connect(row.weighed, &QLineEdit::editingFinished, this, [this, i] { take(i); });
        rows_.push_back(row);
    }
    column_->insertWidget(0, table_);
    table_->show();
}

void WeighPage::refresh()
{
    QStringList wanted;
    for (const auto& line : state_.lines())
        wanted << line.component + QLatin1Char('=') + line.amount.substance;
    filling_ = true;
    if (wanted != shown_) {
        qsizetype focused = -1; // the swap that was just chosen keeps the focus
        for (size_t i = 0; i < rows_.size(); ++i)
            if (rows_[i].instead->hasFocus())
                focused = qsizetype(i);
        shown_ = wanted;
        buildRows();
        if (focused >= 0 && focused < qsizetype(rows_.size()))
            rows_[size_t(focused)].instead->setFocus();
    }
    QStringList solutions;
    for (const auto& line : state_.lines())
        solutions << line.amount.solution;
    solutions.removeDuplicates();
    const bool several = solutions.size() > 1;
    for (size_t i = 0; i < rows_.size(); ++i) {
        const auto& line = state_.lines()[i];
        auto& row = rows_[i];
        row.figure->setText(tr("%1 g").arg(gramsText(line.amount.rounded_g, state_.order.balance_g)));
        row.figure->setAccessibleName(tr("To weigh of %1").arg(line.name));
        QStringList about { line.name };
        if (!line.formula_of.isEmpty())
            about << line.formula_of;
        if (several && !line.amount.solution.isEmpty())
            about << tr("for solution %1").arg(line.amount.solution);
        row.name->setText(about.join(QLatin1Char('\n')));
        const double off = line.amount.off() * 100;
        row.off->setText(std::abs(off) < 0.05 ? tr("exact")
                                              : tr("%1 %").arg((off > 0 ? QStringLiteral("+") : QStringLiteral("−"))
                                                  + QLocale().toString(std::abs(off), 'f', 1)));
        row.off->setToolTip(
            tr("What the balance puts it off: exactly %1 g.").arg(QLocale().toString(line.amount.exact_g, 'f', 4)));
        row.instead->setCurrentIndex(row.instead->findData(line.amount.substance));
        row.bottle->clear();
        for (const auto bottle : line.bottles)
            row.bottle->addItem(bottleText(bottle), bottle);
        row.bottle->addItem(bottleText(0), qint64(0));
        row.bottle->setCurrentIndex(row.bottle->findData(state_.bottleFor(line)));
        row.bottle->setToolTip(row.bottle->currentText());
        row.instead->setToolTip(row.instead->currentText());
        const auto grams = state_.entered(line.component).grams;
        if (!row.weighed->isModified())
            row.weighed->setText(grams ? QLocale().toString(*grams, 'g', 6) : QString());
        QString under = line.amount.note;
        if (!line.amount.swapped_from.isEmpty())
            under = chemistry::swapCaution(*chemistry::substanceByKey(line.amount.swapped_from),
                        *chemistry::substanceByKey(line.amount.substance))
                + QLatin1Char(' ') + under;
        row.under->setText(under.trimmed());
    }
    filling_ = false;
    tell();
}

void WeighPage::tell()
{
    const auto& scaled = state_.scaled();
    QString html = QStringLiteral("<p>%1</p>").arg(state_.roundingSentence().toHtmlEscaped());
    for (const auto& warning : scaled.warnings)
        html += QStringLiteral("<p><b style=\"color:%1\">%2</b> %3</p>")
                    .arg(theme_.rust.name(), tr("Mind:"), warning.toHtmlEscaped());
    for (const auto& line : state_.lines()) {
        const auto grams = state_.entered(line.component).grams;
        if (!grams)
            continue;
        const double off = *grams / line.amount.exact_g - 1;
        if (std::abs(off) > 0.1)
            html += QStringLiteral("<p><b style=\"color:%1\">%2</b> %3</p>")
                        .arg(theme_.rust.name(), tr("Far off:"),
                            tr("%1 g of %2 is %3 % of what was planned.")
                                .arg(QLocale().toString(*grams, 'g', 6), line.name,
                                    QLocale().toString((1 + off) * 100, 'f', 0))
                                .toHtmlEscaped());
    }
    for (const auto& caution : scaled.cautions)
        if (caution.contains(tr("left out")))
            html += QStringLiteral("<p>%1</p>").arg(caution.toHtmlEscaped());
    remarks_->setText(html);
}

void WeighPage::take(int line)
{
    if (filling_)
        return;
    auto& row = rows_[size_t(line)];
    const auto& component = state_.lines()[size_t(line)].component;
    const auto text = row.weighed->text().trimmed();
    auto& entered = state_.entered(component);
    row.weighed->setModified(false);
    if (text.isEmpty()) {
        entered.grams.reset();
        Q_EMIT weighed();
        return;
    }
    const auto mark = QLocale().decimalPoint() == QLatin1String(",") ? DecimalMark::Comma : DecimalMark::Undecided;
    auto read = parseNumber(text, mark);
    if (read.fault == NumberFault::Ambiguous) // "0,123": nobody weighs 123 kg here
        read = parseNumber(text, DecimalMark::Comma);
    const auto grams = read.value && read.unit.isEmpty() ? read.value
        : read.value                                     ? convert(*read.value, read.unit, u"g")
                                                         : std::nullopt;
    if (!grams || !(*grams > 0) || *grams > 1000) {
        row.under->setText(QStringLiteral("<b style=\"color:%1\">%2</b> %3")
                               .arg(theme_.rust.name(), tr("Not taken:"),
                                   tr("“%1” is not a mass between 0 and 1000 g.").arg(text).toHtmlEscaped()));
        row.weighed->setModified(true); // what was typed stays
        entered.grams.reset();
        return;
    }
    entered.grams = grams;
    Q_EMIT weighed();
}

void WeighPage::setTheme(const Theme& theme)
{
    theme_ = theme;
    tell();
}

QString WeighPage::figure(int line) const
{
    return rows_[size_t(line)].figure->text();
}

QString WeighPage::remarks() const
{
    return remarks_->text();
}

} // namespace washfast::ui::mixing
