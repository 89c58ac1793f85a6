#include "ui/mixing/check_page.h"

#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRegularExpression>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace washfast::ui::mixing {

namespace {
constexpr int formWidth = 320;

/// Said with a mark and a word: what does not agree, what is unknown, and what does.
enum class Weight { Good, Unknown, Bad };
Weight weightOf(chemistry::FindingKind kind)
{
    switch (kind) {
    case chemistry::FindingKind::Agrees:
        return Weight::Good;
    case chemistry::FindingKind::Unknown:
    case chemistry::FindingKind::FormAssumed:
        return Weight::Unknown;
    default:
        return Weight::Bad;
    }
}
} // namespace

QString nextMixCode(const Notebook& notebook)
{
    static const QRegularExpression form(QStringLiteral("^M(\\d+)$"));
    int last = 0;
    const auto& table = notebook.table(Entity::Mix);
    for (int row = 0; row < table.rows(); ++row)
        if (const auto match = form.match(notebook.nameOf({ Entity::Mix, table.id(row) })); match.hasMatch())
            last = qMax(last, match.captured(1).toInt());
    return QStringLiteral("M%1").arg(last + 1);
}

CheckPage::CheckPage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , state_(state)
    , desk_(desk)
    , theme_(theme)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(8, 8, 8, 8);
    row->setSpacing(16);
    auto* left = new QVBoxLayout;
    row->addLayout(left, 1);
    picture_ = new CompositionPicture(theme, this);
    left->addWidget(picture_);
    findings_ = new QTextBrowser(this);
    findings_->setAccessibleName(tr("What was found"));
    findings_->setTabChangesFocus(true);
    findings_->setMinimumHeight(90);
    left->addWidget(findings_, 1);

    auto* side = new QWidget(this);
    side->setFixedWidth(formWidth);
    row->addWidget(side);
    auto* form = new QFormLayout(side);
    form->setContentsMargins(0, 0, 0, 0);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    about_ = new QLabel(side);
    about_->setWordWrap(true);
    form->addRow(about_);
    code_ = new QLineEdit(side);
    code_->setAccessibleName(tr("Code of the mix"));
    form->addRow(tr("&Code"), code_);
    volume_ = new QDoubleSpinBox(side);
    volume_->setRange(0, 5000);
    volume_->setDecimals(1);
    volume_->setSpecialValueText(tr("as planned"));
    volume_->setSuffix(tr(" mL"));
    volume_->setAccessibleName(tr("Topped up to"));
    form->addRow(tr("Vol&ume"), volume_);
    ph_ = new QDoubleSpinBox(side);
    ph_->setRange(-0.1, 14);
    ph_->setSingleStep(0.1);
    ph_->setDecimals(1);
    ph_->setSpecialValueText(tr("not measured"));
    ph_->setValue(-0.1);
    ph_->setAccessibleName(tr("pH of the mix"));
    form->addRow(tr("pH"), ph_);
    notes_ = new QLineEdit(side);
    notes_->setAccessibleName(tr("Notes on the mix"));
    form->addRow(tr("N&otes"), notes_);
    use_ = new QCheckBox(side);
    use_->setChecked(true);
    form->addRow(use_);
    keep_ = new QPushButton(tr("&Keep this mix"), side);
    keep_->setToolTip(tr("Makes its record with all parts, on the Shelf and for the Bench. Ctrl+Z takes it back."));
    keep_->setMinimumHeight(40);
    keep_->setEnabled(desk.writable());
    form->addRow(keep_);

    connect(volume_, &QDoubleSpinBox::valueChanged, this, [this](double value) {
        state_.volume_ml = value > 0 ? std::optional(value) : std::nullopt;
        if (!filling_)
            Q_EMIT changed();
    });
    connect(ph_, &QDoubleSpinBox::valueChanged, this,
        [this](double value) { state_.ph = value >= 0 ? std::optional(value) : std::nullopt; });
    connect(keep_, &QPushButton::clicked, this, &CheckPage::keep);
}

QVector<qint64> CheckPage::withoutMix() const
{
    QVector<qint64> prints;
    for (const auto print : desk_.printsOf(desk_.session()))
        if (!desk_.notebook().get({ Entity::Print, print }, u"print_mix").link())
            prints << print;
    return prints;
}

QVector<qint64> CheckPage::prints() const
{
    return use_->isVisibleTo(this) && use_->isChecked() ? withoutMix() : QVector<qint64> {};
}

void CheckPage::refresh()
{
    const auto audit = state_.audited();
    const int weighed = state_.weighed();
    const int all = int(state_.lines().size());
    picture_->setAudit(audit, weighed == 0);
    about_->setText(weighed == 0 ? tr("Nothing weighed yet: this is the plan.")
            : weighed < all      ? tr("%1 of %2 weighed: what lacks is not known.").arg(weighed).arg(all)
                                 : tr("All parts weighed."));
    QString html;
    for (const auto& finding : audit.findings) {
        const auto weight = weightOf(finding.kind);
        const auto mark = weight == Weight::Good ? tr("✓ Agrees:")
            : weight == Weight::Unknown          ? tr("? Open:")
                                                 : tr("▲ Off:");
        const auto colour = weight == Weight::Bad ? theme_.rust : weight == Weight::Good ? theme_.blue : theme_.quiet;
        html += QStringLiteral("<p><b style=\"color:%1\">%2</b> %3</p>")
                    .arg(colour.name(), mark, finding.says.toHtmlEscaped());
    }
    findings_->setHtml(html);
    if (!code_->isModified())
        code_->setText(nextMixCode(desk_.notebook()));
    const auto waiting = withoutMix();
    use_->setVisible(!waiting.isEmpty());
    use_->setText(tr("Use it for %n print(s) without a mix", nullptr, int(waiting.size())));
    use_->setToolTip(tr("Prints of the running session that have no mix yet."));
}

void CheckPage::forgetEntries()
{
    filling_ = true;
    volume_->setValue(0);
    ph_->setValue(-0.1);
    notes_->clear();
    code_->setModified(false);
    filling_ = false;
}

QString CheckPage::code() const
{
    return code_->text().trimmed();
}

QString CheckPage::notes() const
{
    return notes_->text().trimmed();
}

void CheckPage::setTheme(const Theme& theme)
{
    theme_ = theme;
    picture_->setTheme(theme);
    refresh();
}

QString CheckPage::findings() const
{
    return findings_->toPlainText();
}

} // namespace washfast::ui::mixing
