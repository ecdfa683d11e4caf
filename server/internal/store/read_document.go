package store

import (
	"context"
	"strconv"

	"gorm.io/gorm"
)

// Document reads the newest version.
func (r Reader) Document(ctx context.Context, kind, id string) (Document, error) {
	return r.document(ctx, kind, id, id, func(db *gorm.DB) *gorm.DB { return db.Order("n DESC") })
}

// DocumentAt reads version n.
func (r Reader) DocumentAt(ctx context.Context, kind, id string, n int64) (Document, error) {
	return r.document(ctx, kind, id, id+" version "+strconv.FormatInt(n, 10), func(db *gorm.DB) *gorm.DB { return db.Where("n = ?", n) })
}

func (r Reader) document(ctx context.Context, kind, id, named string, which func(*gorm.DB) *gorm.DB) (Document, error) {
	if textFault(kind) != "" || textFault(id) != "" {
		return Document{}, &NotFoundError{Kind: kind, ID: id}
	}
	return one[documentRow](ctx, r, kind, named, func(db *gorm.DB) *gorm.DB {
		return which(db.Where("yard_id = ? AND kind = ? AND id = ?", r.yard, kind, id))
	})
}

// DocumentVersions lists every version of one document, the first one first.
func (r Reader) DocumentVersions(ctx context.Context, kind, id string, page Page) (List[Document], error) {
	return listOf[documentRow](ctx, r, page, " AND kind = ? AND id = ?", kind, id)
}

// Documents lists the documents of a kind in their newest versions, in the order
// in which the documents were first put.
func (r Reader) Documents(ctx context.Context, kind string, page Page) (List[Document], error) {
	first, err := listOf[documentRow](ctx, r, page, " AND n = 1 AND kind = ?", kind)
	if err != nil {
		return first, err
	}
	for i, document := range first.Items {
		if first.Items[i], err = r.Document(ctx, kind, document.ID); err != nil {
			return List[Document]{}, err
		}
	}
	return first, nil
}
