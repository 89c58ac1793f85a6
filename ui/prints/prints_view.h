// Prints: the table with its filter line, and the page of the print with the cursor.
#pragma once

#include "ui/common/view.h"

class QLabel;
class QSplitter;
class QStackedWidget;
class QTableView;
class QVBoxLayout;

namespace washfast::ui {

class EmptyState;
class FilterLine;
class PrintPage;
class PrintTableModel;

class PrintsView : public View {
    Q_OBJECT

public:
    explicit PrintsView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Prints"); }
    void arrive() override;
    /// Shows this print's page, and the print in the table when the filter lets it.
    void showPrint(qint64 print);
    void setFilter(const QString& text);
    [[nodiscard]] PrintTableModel* model() const { return model_; }
    [[nodiscard]] QTableView* table() const { return table_; }
    [[nodiscard]] FilterLine* filterLine() const { return filter_; }
    [[nodiscard]] PrintPage* page() const { return page_; }
    [[nodiscard]] QVector<qint64> selected() const;

public Q_SLOTS:
    void chooseColumns();
    void removeSelected();
    void compareSelected();
    void copySelected();
    /// Stores photos with the prints that their labels name, and tells which had none. Gives how many were stored.
    int addLabelledPhotos(const QStringList& paths);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void buildBar(QVBoxLayout& column);
    void buildTable();
    void openCurrent();
    void closePage();
    void tellCounts();
    void rememberPlace();
    void goBackToPlace();

    /// What was chosen before the rows were read again.
    struct Place {
        QVector<qint64> selected;
        qint64 current = 0;
        int column = 0;
        bool empty = false;
    };

    Place place_;
    FilterLine* filter_ = nullptr;
    PrintTableModel* model_ = nullptr;
    QTableView* table_ = nullptr;
    QSplitter* split_ = nullptr;
    QStackedWidget* left_ = nullptr;
    EmptyState* empty_ = nullptr;
    PrintPage* page_ = nullptr;
    QLabel* counts_ = nullptr;
};

} // namespace washfast::ui
