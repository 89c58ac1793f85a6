// One new print or many from one template. What they share is shown before it is written: it begins with what the last
// print had, and each field can be changed or emptied.
#pragma once

#include "ui/common/view.h"

#include <QDialog>
#include <map>

class QLabel;
class QLineEdit;
class QSpinBox;

namespace washfast::ui {

class FieldEditor;

inline constexpr int mostNewPrints = 60;

struct PrintTemplate {
    QStringList codes;
    QString maker_prefix; // m -> m01, m02 ...; empty: no maker
    int first_maker = 1;
    std::vector<std::pair<QString, Known>> fields; // print fields by their keys; those of linked records by name
};

/// Adds the prints to the session, in order. Names of mixes and papers that are not there yet are made.
[[nodiscard]] Result<QVector<qint64>> addPrints(store::Writer& writer, SessionId session, const PrintTemplate& sheets);

class NewPrintsDialog : public QDialog {
    Q_OBJECT

public:
    NewPrintsDialog(const Services& services, SessionId session, int count, QWidget* parent = nullptr);

    /// The new prints after it has been accepted.
    [[nodiscard]] QVector<qint64> prints() const { return made_; }
    [[nodiscard]] QSpinBox* count() const { return count_; }
    [[nodiscard]] QLineEdit* firstCode() const { return first_; }
    [[nodiscard]] QLineEdit* makerPrefix() const { return maker_; }
    [[nodiscard]] FieldEditor* editor(const QString& key) const;

public Q_SLOTS:
    void accept() override;

private:
    [[nodiscard]] QStringList codes() const;
    [[nodiscard]] int firstMaker() const;
    void showCodes();

    Desk& desk_;
    Dialogs& dialogs_;
    SessionId session_;
    QSpinBox* count_;
    QLineEdit* first_;
    QLineEdit* maker_;
    QLabel* preview_;
    std::vector<FieldEditor*> editors_;
    std::map<QString, Known> values_;
    QVector<qint64> made_;
};

} // namespace washfast::ui
