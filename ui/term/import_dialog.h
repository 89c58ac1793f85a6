// Brings prints in from a table: the file, what its headings mean, what each row would become, and only then the
// import.
#pragma once

#include "core/exchange/import.h"
#include "ui/common/view.h"

#include <QDialog>

class QCheckBox;
class QLabel;
class QPushButton;
class QTableView;
class QTableWidget;

namespace washfast::ui {

class ImportModel;

class ImportDialog : public QDialog {
    Q_OBJECT

public:
    explicit ImportDialog(const Services& services, QWidget* parent = nullptr);

    /// Reads a file and shows what it would become. False when it cannot be read.
    bool load(const QString& path);
    /// Says what a heading means, as if chosen in the list.
    void map(const QString& heading, const QString& key);
    [[nodiscard]] const exchange::ImportPreview& preview() const { return preview_; }
    void setKeepGood(bool keep);
    [[nodiscard]] QString summary() const;

public Q_SLOTS:
    void accept() override;

private:
    void choose();
    void look();
    void showMapping();

    Services services_;
    QString path_;
    exchange::DelimitedTable table_;
    exchange::HeadingChoices choices_;
    exchange::ImportPreview preview_;
    QLabel* file_ = nullptr;
    QLabel* summary_ = nullptr;
    QTableWidget* headings_ = nullptr;
    QTableView* rows_ = nullptr;
    ImportModel* model_ = nullptr;
    QCheckBox* keep_good_ = nullptr;
    QPushButton* import_ = nullptr;
};

} // namespace washfast::ui
