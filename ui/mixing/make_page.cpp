#include "ui/mixing/make_page.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace washfast::ui::mixing {

namespace {
constexpr int lookEveryMs = 500;
}

MakePage::MakePage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , state_(state)
    , desk_(desk)
    , theme_(theme)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(8, 8, 8, 8);
    auto* left = new QVBoxLayout;
    row->addLayout(left, 3);
    steps_ = new StepList(theme, this);
    left->addWidget(steps_, 1);
    auto* foot = new QHBoxLayout;
    left->addLayout(foot);
    sum_ = new QLabel(this);
    foot->addWidget(sum_, 1);
    time_ = new QLabel(this);
    QFont large = textFont(font(), TextSize::Title);
    large.setBold(true);
    time_->setFont(large);
    time_->setAccessibleName(tr("Time left of the waiting"));
    foot->addWidget(time_);
    start_ = new QPushButton(this);
    start_->setMinimumHeight(40);
    foot->addWidget(start_);
    auto* right = new QVBoxLayout;
    row->addLayout(right, 2);
    gas_ = new QLabel(this);
    gas_->setWordWrap(true);
    gas_->setTextFormat(Qt::RichText);
    gas_->setAccessibleName(tr("Gas that comes off"));
    right->addWidget(gas_);
    cautions_ = new QTextBrowser(this);
    cautions_->setAccessibleName(tr("Cautions of mixing"));
    cautions_->setTabChangesFocus(true);
    right->addWidget(cautions_, 1);
    connect(steps_, &StepList::currentRowChanged, this, &MakePage::follow);
    connect(steps_, &StepList::tickedChanged, this, &MakePage::follow);
    connect(start_, &QPushButton::clicked, this, &MakePage::startOrStop);
    connect(&tick_, &QTimer::timeout, this, &MakePage::look);
}

void MakePage::refresh()
{
    steps_->setSteps(state_.steps());
    const auto gas = state_.gasSentence();
    gas_->setVisible(!gas.isEmpty());
    gas_->setText(QStringLiteral("<p><b style=\"color:%1\">%2</b> %3</p>")
                      .arg(theme_.rust.name(), tr("▲ Gas:"), gas.toHtmlEscaped()));
    QString html;
    for (const auto& caution : state_.cautions())
        html += QStringLiteral("<p><b>%1</b><br/>%2<br/>%3</p>")
                    .arg(caution.what.toHtmlEscaped(), caution.why.toHtmlEscaped(), caution.todo.toHtmlEscaped());
    const auto& formula = state_.formula();
    for (const auto& [title, text] : { std::pair(tr("Waiting"), formula.waiting), std::pair(tr("Light"), formula.light),
             std::pair(tr("Keeping"), formula.storage), std::pair(tr("What the steps rest on"), formula.steps_source) })
        if (!text.isEmpty())
            html += QStringLiteral("<p><b>%1.</b> %2</p>").arg(title.toHtmlEscaped(), text.toHtmlEscaped());
    html += QStringLiteral("<p><i>%1</i></p>").arg(chemistry::deferral().toHtmlEscaped());
    cautions_->setHtml(html);
    follow();
}

void MakePage::follow()
{
    sum_->setText(tr("%1 of %2 done").arg(steps_->tickedCount()).arg(steps_->count()));
    const double wait = steps_->waitOf(steps_->currentRow());
    start_->setVisible(until_.has_value() || wait > 0);
    start_->setText(until_ ? tr("Stop the &timer") : tr("Start the &timer, %1 min").arg(QString::number(wait, 'f', 0)));
}

void MakePage::startOrStop()
{
    if (until_) {
        until_.reset();
        tick_.stop();
        time_->clear();
    } else if (const double wait = steps_->waitOf(steps_->currentRow()); wait > 0) {
        auto end = desk_.now();
        end.ms_utc += qint64(wait * 60'000);
        until_ = end;
        tick_.start(lookEveryMs);
        look();
    }
    follow();
}

void MakePage::look()
{
    if (!until_)
        return;
    const qint64 left = (until_->ms_utc - desk_.now().ms_utc + 999) / 1000;
    if (left <= 0) {
        until_.reset();
        tick_.stop();
        time_->setText(tr("waited"));
        QApplication::beep();
        Q_EMIT say(tr("The waiting is over."));
        follow();
        return;
    }
    time_->setText(QStringLiteral("%1:%2").arg(left / 60).arg(left % 60, 2, 10, QLatin1Char('0')));
}

void MakePage::setTheme(const Theme& theme)
{
    theme_ = theme;
    steps_->setTheme(theme);
    refresh();
}

QString MakePage::timerText() const
{
    return time_->text();
}

QString MakePage::cautionText() const
{
    return gas_->text() + cautions_->toPlainText();
}

} // namespace washfast::ui::mixing
