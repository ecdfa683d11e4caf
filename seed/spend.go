package seed

// SpendCSV is what was spent on the demo's job while the ten worst pairs were done, as a table to try the import with.
// Every supplier, document, hour and amount in it is invented and says so. Nothing of it is in the demo's books.
func SpendCSV() []byte { return file("spend.csv") }
