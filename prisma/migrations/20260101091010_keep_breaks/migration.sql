-- Times of day when nobody is at the machine: no run is planned into them.
ALTER TABLE "laboratory" ADD COLUMN "breaks" TEXT NOT NULL DEFAULT '[]';
