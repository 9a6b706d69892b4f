BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'stockroom','0001_foundation','2026-11-25 17:25:07.018417+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'stockroom','0002_keeping','2026-11-25 17:25:07.019431+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'stockroom','0003_rechecks','2026-11-25 17:25:07.025922+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'stockroom','0004_kitchen','2026-11-25 17:25:07.032098+00:00');
CREATE TABLE calendar_entry (
    id INTEGER PRIMARY KEY,
    uid TEXT NOT NULL UNIQUE CHECK (uid <> ''),
    sequence INTEGER NOT NULL CHECK (sequence >= 0),
    digest TEXT NOT NULL,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    summary TEXT NOT NULL,
    revised_at TEXT NOT NULL,
    cancelled INTEGER NOT NULL DEFAULT 0 CHECK (cancelled IN (0, 1))
) STRICT;
INSERT INTO "calendar_entry" VALUES(1,'settle-20261001@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'bb388d12ae5631a3b34d49b1a27a9003c31d0dea67b091b3f76249e3431b2859','2026-10-01','Settle check of 3 packages','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(2,'recheck-20261004@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'a99d41d1018783a5876f5af85dad0dd057c31ac15d1766cbcce646220347b34d','2026-10-04','Recheck 1 package','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(3,'upkeep-hose@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'2212932c978b33b29ba7f3db287a401c3214d4a8cdee3088c57d7510f250e076','2026-10-01','Upkeep: hose, belt and cord','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(4,'upkeep-oil-change@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'ab5facb0d48e22765f442daedb6bc12dca3f163c14eaf7a0a137ecf585cfd9ba','2026-10-01','Upkeep: pump oil change','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(5,'upkeep-scale@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'68f0ba0286eb5788a04434af7818d03c084997629b057784f4bb28c6ca8c5543','2026-10-01','Upkeep: scale','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(6,'upkeep-leak@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'0eec6cb65e84cfa23cc91d2358975d486fcdae5de44e743cab1d4c4d2c94dd41','2026-10-25','Upkeep: leak test','2026-10-01T12:00:00+00:00',0);
INSERT INTO "calendar_entry" VALUES(7,'upkeep-coil@d26f30c6b94443b3b95a5bc97a10f880.stockroom.invalid',0,'f03455c98ec93b283a084321c95d78a1abc56406ad6a62dbfc953f6b5624584d','2026-10-31','Upkeep: cooling coil and fan','2026-10-01T12:00:00+00:00',0);
CREATE TABLE change (
    id INTEGER PRIMARY KEY,
    journal_id INTEGER NOT NULL REFERENCES journal (id),
    table_name TEXT NOT NULL,
    row_id INTEGER NOT NULL,
    before TEXT CHECK (before IS NULL OR json_valid(before)),
    after TEXT CHECK (after IS NULL OR json_valid(after)),
    CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;
INSERT INTO "change" VALUES(1,1,'setting',1,NULL,'{"id":1,"key":"units","value":"metric"}');
INSERT INTO "change" VALUES(2,1,'setting',2,NULL,'{"id":2,"key":"people","value":"2"}');
INSERT INTO "change" VALUES(3,1,'setting',3,NULL,'{"id":3,"key":"name","value":""}');
INSERT INTO "change" VALUES(4,1,'container',1,NULL,'{"id":1,"key":"pouch-400-foil","name":"foil pouch 400 mL","package_kind":"foil_pouch","volume_ml":400,"width_mm":150,"height_mm":200}');
INSERT INTO "change" VALUES(5,1,'container',2,NULL,'{"id":2,"key":"pouch-475-foil","name":"foil pouch 475 mL","package_kind":"foil_pouch","volume_ml":475,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(6,1,'container',3,NULL,'{"id":3,"key":"pouch-950-foil","name":"foil pouch 950 mL","package_kind":"foil_pouch","volume_ml":946,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(7,1,'container',4,NULL,'{"id":4,"key":"pouch-1500-foil","name":"foil pouch 1.5 L","package_kind":"foil_pouch","volume_ml":1500,"width_mm":200,"height_mm":300}');
INSERT INTO "change" VALUES(8,1,'container',5,NULL,'{"id":5,"key":"pouch-1900-foil","name":"foil pouch 1.9 L","package_kind":"foil_pouch","volume_ml":1893,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(9,1,'container',6,NULL,'{"id":6,"key":"pouch-3785-foil","name":"foil pouch 3.8 L","package_kind":"foil_pouch","volume_ml":3785,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(10,1,'container',7,NULL,'{"id":7,"key":"pouch-400-metallised","name":"metallised pouch 400 mL","package_kind":"metallised_pouch","volume_ml":400,"width_mm":150,"height_mm":200}');
INSERT INTO "change" VALUES(11,1,'container',8,NULL,'{"id":8,"key":"pouch-950-metallised","name":"metallised pouch 950 mL","package_kind":"metallised_pouch","volume_ml":946,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(12,1,'container',9,NULL,'{"id":9,"key":"pouch-1500-metallised","name":"metallised pouch 1.5 L","package_kind":"metallised_pouch","volume_ml":1500,"width_mm":200,"height_mm":300}');
INSERT INTO "change" VALUES(13,1,'container',10,NULL,'{"id":10,"key":"pouch-3785-metallised","name":"metallised pouch 3.8 L","package_kind":"metallised_pouch","volume_ml":3785,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(14,1,'container',11,NULL,'{"id":11,"key":"bag-vacuum-950","name":"vacuum bag 950 mL","package_kind":"vacuum_bag","volume_ml":946,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(15,1,'container',12,NULL,'{"id":12,"key":"bag-vacuum-1500","name":"vacuum bag 1.5 L","package_kind":"vacuum_bag","volume_ml":1500,"width_mm":200,"height_mm":300}');
INSERT INTO "change" VALUES(16,1,'container',13,NULL,'{"id":13,"key":"bag-vacuum-3785","name":"vacuum bag 3.8 L","package_kind":"vacuum_bag","volume_ml":3785,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(17,1,'container',14,NULL,'{"id":14,"key":"bag-zip-1000","name":"zip bag 1 L","package_kind":"zip_bag","volume_ml":1000,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(18,1,'container',15,NULL,'{"id":15,"key":"bag-zip-950","name":"zip bag 950 mL","package_kind":"zip_bag","volume_ml":946,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(19,1,'container',16,NULL,'{"id":16,"key":"bag-zip-3785","name":"zip bag 3.8 L","package_kind":"zip_bag","volume_ml":3785,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(20,1,'container',17,NULL,'{"id":17,"key":"jar-240","name":"jar 240 mL","package_kind":"jar","volume_ml":237,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(21,1,'container',18,NULL,'{"id":18,"key":"jar-475","name":"jar 475 mL","package_kind":"jar","volume_ml":475,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(22,1,'container',19,NULL,'{"id":19,"key":"jar-700","name":"jar 700 mL","package_kind":"jar","volume_ml":710,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(23,1,'container',20,NULL,'{"id":20,"key":"jar-950","name":"jar 950 mL","package_kind":"jar","volume_ml":946,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(24,1,'container',21,NULL,'{"id":21,"key":"jar-1900","name":"jar 1.9 L","package_kind":"jar","volume_ml":1900,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(25,1,'container',22,NULL,'{"id":22,"key":"jar-3785","name":"jar 3.8 L","package_kind":"jar","volume_ml":3785,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(26,1,'container',23,NULL,'{"id":23,"key":"can-3300","name":"seamed can 3.3 L","package_kind":"jar","volume_ml":3300,"width_mm":null,"height_mm":null}');
INSERT INTO "change" VALUES(27,2,'location',1,NULL,'{"id":1,"parent_id":null,"name":"cellar","kind":"room","temperature_dc":null,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(28,3,'location',2,NULL,'{"id":2,"parent_id":1,"name":"rack 1","kind":"rack","temperature_dc":null,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(29,4,'location',3,NULL,'{"id":3,"parent_id":2,"name":"bin 2","kind":"bin","temperature_dc":null,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(30,5,'location',4,NULL,'{"id":4,"parent_id":null,"name":"loft","kind":"room","temperature_dc":null,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(31,6,'location',1,'{"id":1,"parent_id":null,"name":"cellar","kind":"room","temperature_dc":null,"note":"","humidity_percent":null}','{"id":1,"parent_id":null,"name":"cellar","kind":"room","temperature_dc":120,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(32,7,'location',5,NULL,'{"id":5,"parent_id":null,"name":"chest freezer","kind":"room","temperature_dc":-180,"note":"","humidity_percent":null}');
INSERT INTO "change" VALUES(33,8,'location',1,'{"id":1,"parent_id":null,"name":"cellar","kind":"room","temperature_dc":120,"note":"","humidity_percent":null}','{"id":1,"parent_id":null,"name":"cellar","kind":"room","temperature_dc":120,"note":"","humidity_percent":70}');
INSERT INTO "change" VALUES(34,9,'location_temperature',1,NULL,'{"id":1,"location_id":4,"month":1,"temperature_dc":40,"origin":"stated"}');
INSERT INTO "change" VALUES(35,9,'location_temperature',2,NULL,'{"id":2,"location_id":4,"month":2,"temperature_dc":77,"origin":"stated"}');
INSERT INTO "change" VALUES(36,9,'location_temperature',3,NULL,'{"id":3,"location_id":4,"month":3,"temperature_dc":113,"origin":"stated"}');
INSERT INTO "change" VALUES(37,9,'location_temperature',4,NULL,'{"id":4,"location_id":4,"month":4,"temperature_dc":150,"origin":"stated"}');
INSERT INTO "change" VALUES(38,9,'location_temperature',5,NULL,'{"id":5,"location_id":4,"month":5,"temperature_dc":187,"origin":"stated"}');
INSERT INTO "change" VALUES(39,9,'location_temperature',6,NULL,'{"id":6,"location_id":4,"month":6,"temperature_dc":223,"origin":"stated"}');
INSERT INTO "change" VALUES(40,9,'location_temperature',7,NULL,'{"id":7,"location_id":4,"month":7,"temperature_dc":260,"origin":"stated"}');
INSERT INTO "change" VALUES(41,9,'location_temperature',8,NULL,'{"id":8,"location_id":4,"month":8,"temperature_dc":223,"origin":"stated"}');
INSERT INTO "change" VALUES(42,9,'location_temperature',9,NULL,'{"id":9,"location_id":4,"month":9,"temperature_dc":187,"origin":"stated"}');
INSERT INTO "change" VALUES(43,9,'location_temperature',10,NULL,'{"id":10,"location_id":4,"month":10,"temperature_dc":150,"origin":"stated"}');
INSERT INTO "change" VALUES(44,9,'location_temperature',11,NULL,'{"id":11,"location_id":4,"month":11,"temperature_dc":113,"origin":"stated"}');
INSERT INTO "change" VALUES(45,9,'location_temperature',12,NULL,'{"id":12,"location_id":4,"month":12,"temperature_dc":77,"origin":"stated"}');
INSERT INTO "change" VALUES(46,10,'temperature_reading',1,NULL,'{"id":1,"location_id":5,"at":"2026-08-30T06:00","temperature_dc":-184}');
INSERT INTO "change" VALUES(47,10,'temperature_reading',2,NULL,'{"id":2,"location_id":5,"at":"2026-08-30T18:00","temperature_dc":-176}');
INSERT INTO "change" VALUES(48,10,'temperature_reading',3,NULL,'{"id":3,"location_id":5,"at":"2026-08-31T18:00","temperature_dc":-179}');
INSERT INTO "change" VALUES(49,10,'location_temperature',13,NULL,'{"id":13,"location_id":5,"month":1,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(50,10,'location_temperature',14,NULL,'{"id":14,"location_id":5,"month":2,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(51,10,'location_temperature',15,NULL,'{"id":15,"location_id":5,"month":3,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(52,10,'location_temperature',16,NULL,'{"id":16,"location_id":5,"month":4,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(53,10,'location_temperature',17,NULL,'{"id":17,"location_id":5,"month":5,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(54,10,'location_temperature',18,NULL,'{"id":18,"location_id":5,"month":6,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(55,10,'location_temperature',19,NULL,'{"id":19,"location_id":5,"month":7,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(56,10,'location_temperature',20,NULL,'{"id":20,"location_id":5,"month":8,"temperature_dc":-179,"origin":"readings"}');
INSERT INTO "change" VALUES(57,10,'location_temperature',21,NULL,'{"id":21,"location_id":5,"month":9,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(58,10,'location_temperature',22,NULL,'{"id":22,"location_id":5,"month":10,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(59,10,'location_temperature',23,NULL,'{"id":23,"location_id":5,"month":11,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(60,10,'location_temperature',24,NULL,'{"id":24,"location_id":5,"month":12,"temperature_dc":-179,"origin":"stated"}');
INSERT INTO "change" VALUES(61,11,'food',1,NULL,'{"id":1,"name":"Fish fingers, ours","reference_key":"cod_raw","food_group":"fish","food_class":"lean_meat","preparation":"raw","serving_dg":1100,"water_cg":8122,"energy_tenth_kcal":820,"protein_cg":1781,"fat_cg":67,"ash_cg":116,"carbohydrate_cg":0,"fibre_cg":0,"sugars_cg":0,"ingredients_unknown":0,"note":"Zoë’s"}');
INSERT INTO "change" VALUES(62,11,'food_allergen',1,NULL,'{"id":1,"food_id":1,"allergen":"fish"}');
INSERT INTO "change" VALUES(63,11,'food_allergen',2,NULL,'{"id":2,"food_id":1,"allergen":"wheat"}');
INSERT INTO "change" VALUES(64,12,'run',1,NULL,'{"id":1,"started_on":"2026-09-01","closed_on":null,"state":"open","note":""}');
INSERT INTO "change" VALUES(65,13,'food',2,NULL,'{"id":2,"name":"Peas, green, frozen, boiled","reference_key":"pea_frozen_cooked","food_group":"vegetable","food_class":"vegetable","preparation":"cooked","serving_dg":850,"water_cg":7952,"energy_tenth_kcal":780,"protein_cg":515,"fat_cg":27,"ash_cg":80,"carbohydrate_cg":1426,"fibre_cg":450,"sugars_cg":440,"ingredients_unknown":0,"note":""}');
INSERT INTO "change" VALUES(66,13,'tray',1,NULL,'{"id":1,"run_id":1,"position":1,"food_id":2,"lot_id":null}');
INSERT INTO "change" VALUES(67,13,'weighing',1,NULL,'{"id":1,"tray_id":1,"stage":"wet","gross_dg":10000,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(68,14,'weighing',2,NULL,'{"id":2,"tray_id":1,"stage":"dry","gross_dg":1550,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(69,15,'weighing',3,NULL,'{"id":3,"tray_id":1,"stage":"dry","gross_dg":1550,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(70,16,'dryness_check',1,NULL,'{"id":1,"tray_id":1,"kind":"cold","passed":1,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(71,17,'dryness_check',2,NULL,'{"id":2,"tray_id":1,"kind":"break","passed":1,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(72,18,'food',3,NULL,'{"id":3,"name":"Apple, raw, peeled","reference_key":"apple_raw_peeled","food_group":"fruit","food_class":"fruit","preparation":"ready","serving_dg":1400,"water_cg":8667,"energy_tenth_kcal":480,"protein_cg":27,"fat_cg":13,"ash_cg":17,"carbohydrate_cg":1276,"fibre_cg":130,"sugars_cg":1010,"ingredients_unknown":0,"note":""}');
INSERT INTO "change" VALUES(73,18,'tray',2,NULL,'{"id":2,"run_id":1,"position":2,"food_id":3,"lot_id":null}');
INSERT INTO "change" VALUES(74,18,'weighing',4,NULL,'{"id":4,"tray_id":2,"stage":"wet","gross_dg":12034,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(75,19,'weighing',5,NULL,'{"id":5,"tray_id":2,"stage":"dry","gross_dg":1617,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(76,20,'weighing',6,NULL,'{"id":6,"tray_id":2,"stage":"dry","gross_dg":1617,"tare_dg":0,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(77,21,'dryness_check',3,NULL,'{"id":3,"tray_id":2,"kind":"cold","passed":1,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(78,22,'dryness_check',4,NULL,'{"id":4,"tray_id":2,"kind":"break","passed":1,"on_day":"2026-09-01","at":"2026-09-01T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(79,23,'lot',1,NULL,'{"id":1,"code":"26244A","run_id":1,"food_id":2,"made_on":"2026-09-01","preparation":"cooked","wet_dg":10000,"dry_dg":1550,"note":"","dealt_before_dg":0,"dealt_before_water_dg":0}');
INSERT INTO "change" VALUES(80,23,'tray',1,'{"id":1,"run_id":1,"position":1,"food_id":2,"lot_id":null}','{"id":1,"run_id":1,"position":1,"food_id":2,"lot_id":1}');
INSERT INTO "change" VALUES(81,23,'lot',2,NULL,'{"id":2,"code":"26244B","run_id":1,"food_id":3,"made_on":"2026-09-01","preparation":"ready","wet_dg":12034,"dry_dg":1617,"note":"","dealt_before_dg":0,"dealt_before_water_dg":0}');
INSERT INTO "change" VALUES(82,23,'tray',2,'{"id":2,"run_id":1,"position":2,"food_id":3,"lot_id":null}','{"id":2,"run_id":1,"position":2,"food_id":3,"lot_id":2}');
INSERT INTO "change" VALUES(83,23,'run',1,'{"id":1,"started_on":"2026-09-01","closed_on":null,"state":"open","note":""}','{"id":1,"started_on":"2026-09-01","closed_on":"2026-09-01","state":"closed","note":""}');
INSERT INTO "change" VALUES(84,24,'package',1,NULL,'{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(85,24,'package_event',1,NULL,'{"id":1,"package_id":1,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":3,"note":""}');
INSERT INTO "change" VALUES(86,24,'package',2,NULL,'{"id":2,"code":"26244A02I","lot_id":1,"food_id":2,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1636,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(87,24,'package_event',2,NULL,'{"id":2,"package_id":2,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":3,"note":""}');
INSERT INTO "change" VALUES(88,24,'package',3,NULL,'{"id":3,"code":"26244A03G","lot_id":1,"food_id":2,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(89,24,'package_event',3,NULL,'{"id":3,"package_id":3,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":3,"note":""}');
INSERT INTO "change" VALUES(90,24,'package',4,NULL,'{"id":4,"code":"26244A04E","lot_id":1,"food_id":2,"number":4,"container_id":18,"absorber_cc":0,"vacuum":1,"vacuum_tenth_inhg":null,"dry_dg":200,"water_dg":1091,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(91,24,'package_event',4,NULL,'{"id":4,"package_id":4,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":3,"note":""}');
INSERT INTO "change" VALUES(92,25,'lot_loss',1,NULL,'{"id":1,"lot_id":1,"reason":"tasted","dry_dg":45,"water_dg":245,"on_day":"2026-09-01","note":""}');
INSERT INTO "change" VALUES(93,26,'package',5,NULL,'{"id":5,"code":"26244B01C","lot_id":2,"food_id":3,"number":1,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":405,"water_dg":2609,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(94,26,'package_event',5,NULL,'{"id":5,"package_id":5,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(95,26,'package',6,NULL,'{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(96,26,'package_event',6,NULL,'{"id":6,"package_id":6,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(97,26,'package',7,NULL,'{"id":7,"code":"26244B038","lot_id":2,"food_id":3,"number":3,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2602,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(98,26,'package_event',7,NULL,'{"id":7,"package_id":7,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(99,26,'package',8,NULL,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(100,26,'package_event',8,NULL,'{"id":8,"package_id":8,"on_day":"2026-09-01","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(101,27,'package',1,'{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"sound","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(102,27,'package_event',9,NULL,'{"id":9,"package_id":1,"on_day":"2026-09-08","event":"crisp","from_condition":"settling","to_condition":"sound","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(103,28,'package',2,'{"id":2,"code":"26244A02I","lot_id":1,"food_id":2,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1636,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":2,"code":"26244A02I","lot_id":1,"food_id":2,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1636,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"sound","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(104,28,'package_event',10,NULL,'{"id":10,"package_id":2,"on_day":"2026-09-08","event":"crisp","from_condition":"settling","to_condition":"sound","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(105,29,'package',3,'{"id":3,"code":"26244A03G","lot_id":1,"food_id":2,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":3,"code":"26244A03G","lot_id":1,"food_id":2,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"sound","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(106,29,'package_event',11,NULL,'{"id":11,"package_id":3,"on_day":"2026-09-08","event":"crisp","from_condition":"settling","to_condition":"sound","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(107,30,'package',5,'{"id":5,"code":"26244B01C","lot_id":2,"food_id":3,"number":1,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":405,"water_dg":2609,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":5,"code":"26244B01C","lot_id":2,"food_id":3,"number":1,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":405,"water_dg":2609,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(108,30,'package_event',12,NULL,'{"id":12,"package_id":5,"on_day":"2026-09-08","event":"soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"soft at the seal"}');
INSERT INTO "change" VALUES(109,30,'package',6,'{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(110,30,'package_event',13,NULL,'{"id":13,"package_id":6,"on_day":"2026-09-08","event":"sister_soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"26244B01C went soft"}');
INSERT INTO "change" VALUES(111,30,'package',7,'{"id":7,"code":"26244B038","lot_id":2,"food_id":3,"number":3,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2602,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":7,"code":"26244B038","lot_id":2,"food_id":3,"number":3,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2602,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(112,30,'package_event',14,NULL,'{"id":14,"package_id":7,"on_day":"2026-09-08","event":"sister_soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"26244B01C went soft"}');
INSERT INTO "change" VALUES(113,30,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(114,30,'package_event',15,NULL,'{"id":15,"package_id":8,"on_day":"2026-09-08","event":"sister_soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"26244B01C went soft"}');
INSERT INTO "change" VALUES(115,31,'package',6,'{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"for Zoë","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(116,32,'package',6,'{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"for Zoë","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":6,"code":"26244B02A","lot_id":2,"food_id":3,"number":2,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":2,"condition":"suspect","opened_on":null,"gone_on":null,"note":"for Zoë","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(117,32,'package_event',16,NULL,'{"id":16,"package_id":6,"on_day":"2026-09-08","event":"moved","from_condition":"suspect","to_condition":"suspect","from_location_id":4,"to_location_id":2,"note":""}');
INSERT INTO "change" VALUES(118,32,'package',7,'{"id":7,"code":"26244B038","lot_id":2,"food_id":3,"number":3,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2602,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":7,"code":"26244B038","lot_id":2,"food_id":3,"number":3,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2602,"taken_dg":0,"sealed_on":"2026-09-01","location_id":2,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(119,32,'package_event',17,NULL,'{"id":17,"package_id":7,"on_day":"2026-09-08","event":"moved","from_condition":"suspect","to_condition":"suspect","from_location_id":4,"to_location_id":2,"note":""}');
INSERT INTO "change" VALUES(120,33,'package',5,'{"id":5,"code":"26244B01C","lot_id":2,"food_id":3,"number":1,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":405,"water_dg":2609,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":5,"code":"26244B01C","lot_id":2,"food_id":3,"number":1,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":405,"water_dg":2609,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"discarded","opened_on":null,"gone_on":"2026-09-08","note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(121,33,'package_event',18,NULL,'{"id":18,"package_id":5,"on_day":"2026-09-08","event":"discard","from_condition":"suspect","to_condition":"discarded","from_location_id":null,"to_location_id":null,"note":"went soft, too long ago"}');
INSERT INTO "change" VALUES(122,34,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"sound","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(123,34,'package_event',19,NULL,'{"id":19,"package_id":8,"on_day":"2026-09-08","event":"crisp","from_condition":"suspect","to_condition":"sound","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(124,35,'draw',1,NULL,'{"id":1,"package_id":8,"meal_id":null,"on_day":"2026-09-08","dry_dg":123,"water_dg":792,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(125,35,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"sound","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":123,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(126,35,'package_event',20,NULL,'{"id":20,"package_id":8,"on_day":"2026-09-08","event":"open","from_condition":"sound","to_condition":"opened","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(127,36,'package_event',20,'{"id":20,"package_id":8,"on_day":"2026-09-08","event":"open","from_condition":"sound","to_condition":"opened","from_location_id":null,"to_location_id":null,"note":""}',NULL);
INSERT INTO "change" VALUES(128,36,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":123,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"sound","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(129,36,'draw',1,'{"id":1,"package_id":8,"meal_id":null,"on_day":"2026-09-08","dry_dg":123,"water_dg":792,"note":"","purpose":"eat"}',NULL);
INSERT INTO "change" VALUES(130,37,'draw',1,NULL,'{"id":1,"package_id":8,"meal_id":null,"on_day":"2026-09-08","dry_dg":123,"water_dg":792,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(131,37,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":0,"sealed_on":"2026-09-01","location_id":4,"condition":"sound","opened_on":null,"gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":123,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(132,37,'package_event',20,NULL,'{"id":20,"package_id":8,"on_day":"2026-09-08","event":"open","from_condition":"sound","to_condition":"opened","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(133,38,'recipe',1,NULL,'{"id":1,"name":"Pea soup","serves":4,"cooking_water_dg":5000,"steps":"","hold_back_percent":30,"cook_to_dc":null,"water_temperature_dc":null,"occasion":"main","fresh_kcal":null,"fresh_protein_dg":null,"origin":""}');
INSERT INTO "change" VALUES(134,38,'recipe_line',1,NULL,'{"id":1,"recipe_id":1,"position":1,"food_id":2,"basis":"fresh","weight_dg":3000,"servings_hundredths":null,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(135,38,'recipe_line',2,NULL,'{"id":2,"recipe_id":1,"position":2,"food_id":3,"basis":"servings","weight_dg":null,"servings_hundredths":50,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(136,38,'recipe_line',3,NULL,'{"id":3,"recipe_id":1,"position":3,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"onion","amount_thousandths":2000,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(137,38,'recipe_line',4,NULL,'{"id":4,"recipe_id":1,"position":4,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"pepper","amount_thousandths":null,"unit":"pinch","hold_back_percent":null}');
INSERT INTO "change" VALUES(138,39,'meal',1,NULL,'{"id":1,"recipe_id":1,"name":"Pea soup","people":2,"on_day":"2026-09-15","rehydration_water_dg":1574,"cooking_water_dg":2500,"wetted_at":"2026-09-15T12:00:00+00:00","eat_by":"2026-09-18"}');
INSERT INTO "change" VALUES(139,39,'draw',2,NULL,'{"id":2,"package_id":4,"meal_id":1,"on_day":"2026-09-15","dry_dg":200,"water_dg":1091,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(140,39,'package',4,'{"id":4,"code":"26244A04E","lot_id":1,"food_id":2,"number":4,"container_id":18,"absorber_cc":0,"vacuum":1,"vacuum_tenth_inhg":null,"dry_dg":200,"water_dg":1091,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"settling","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":4,"code":"26244A04E","lot_id":1,"food_id":2,"number":4,"container_id":18,"absorber_cc":0,"vacuum":1,"vacuum_tenth_inhg":null,"dry_dg":200,"water_dg":1091,"taken_dg":200,"sealed_on":"2026-09-01","location_id":3,"condition":"used","opened_on":"2026-09-15","gone_on":"2026-09-15","note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(141,39,'package_event',21,NULL,'{"id":21,"package_id":4,"on_day":"2026-09-15","event":"use_up","from_condition":"settling","to_condition":"used","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(142,39,'draw',3,NULL,'{"id":3,"package_id":1,"meal_id":1,"on_day":"2026-09-15","dry_dg":33,"water_dg":180,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(143,39,'package',1,'{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"sound","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":33,"sealed_on":"2026-09-01","location_id":3,"condition":"opened","opened_on":"2026-09-15","gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(144,39,'package_event',22,NULL,'{"id":22,"package_id":1,"on_day":"2026-09-15","event":"open","from_condition":"sound","to_condition":"opened","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(145,39,'draw',4,NULL,'{"id":4,"package_id":8,"meal_id":1,"on_day":"2026-09-15","dry_dg":47,"water_dg":303,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(146,39,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":123,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":170,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(147,40,'draw',5,NULL,'{"id":5,"package_id":3,"meal_id":null,"on_day":"2026-09-15","dry_dg":300,"water_dg":1635,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(148,40,'package',3,'{"id":3,"code":"26244A03G","lot_id":1,"food_id":2,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":0,"sealed_on":"2026-09-01","location_id":3,"condition":"sound","opened_on":null,"gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":3,"code":"26244A03G","lot_id":1,"food_id":2,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":300,"sealed_on":"2026-09-01","location_id":3,"condition":"used","opened_on":"2026-09-15","gone_on":"2026-09-15","note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(149,40,'package_event',23,NULL,'{"id":23,"package_id":3,"on_day":"2026-09-15","event":"use_up","from_condition":"sound","to_condition":"used","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(150,41,'household_member',1,NULL,'{"id":1,"name":"Runa","sex":"F","age_tenths":410,"age_on":"2026-09-15","body_weight_dg":null,"height_mm":null,"activity":"low","edition":"2020-2025"}');
INSERT INTO "change" VALUES(151,41,'member_allergen',1,NULL,'{"id":1,"member_id":1,"allergen":"fish"}');
INSERT INTO "change" VALUES(152,41,'member_dislike',1,NULL,'{"id":1,"member_id":1,"food_id":3}');
INSERT INTO "change" VALUES(153,42,'food_measure',1,NULL,'{"id":1,"food_id":2,"name":"cup","basis":"dry","weight_dg":380}');
INSERT INTO "change" VALUES(154,43,'recipe',1,'{"id":1,"name":"Pea soup","serves":4,"cooking_water_dg":5000,"steps":"","hold_back_percent":30,"cook_to_dc":null,"water_temperature_dc":null,"occasion":"main","fresh_kcal":null,"fresh_protein_dg":null,"origin":""}','{"id":1,"name":"Pea soup","serves":4,"cooking_water_dg":5000,"steps":"","hold_back_percent":30,"cook_to_dc":null,"water_temperature_dc":null,"occasion":"main","fresh_kcal":null,"fresh_protein_dg":null,"origin":""}');
INSERT INTO "change" VALUES(155,43,'recipe_line',1,'{"id":1,"recipe_id":1,"position":1,"food_id":2,"basis":"fresh","weight_dg":3000,"servings_hundredths":null,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}',NULL);
INSERT INTO "change" VALUES(156,43,'recipe_line',2,'{"id":2,"recipe_id":1,"position":2,"food_id":3,"basis":"servings","weight_dg":null,"servings_hundredths":50,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}',NULL);
INSERT INTO "change" VALUES(157,43,'recipe_line',3,'{"id":3,"recipe_id":1,"position":3,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"onion","amount_thousandths":2000,"unit":null,"hold_back_percent":null}',NULL);
INSERT INTO "change" VALUES(158,43,'recipe_line',4,'{"id":4,"recipe_id":1,"position":4,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"pepper","amount_thousandths":null,"unit":"pinch","hold_back_percent":null}',NULL);
INSERT INTO "change" VALUES(159,43,'recipe_line',1,NULL,'{"id":1,"recipe_id":1,"position":1,"food_id":2,"basis":"fresh","weight_dg":3000,"servings_hundredths":null,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(160,43,'recipe_line',2,NULL,'{"id":2,"recipe_id":1,"position":2,"food_id":3,"basis":"servings","weight_dg":null,"servings_hundredths":50,"item":null,"amount_thousandths":null,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(161,43,'recipe_line',3,NULL,'{"id":3,"recipe_id":1,"position":3,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"onion","amount_thousandths":2000,"unit":null,"hold_back_percent":null}');
INSERT INTO "change" VALUES(162,43,'recipe_line',4,NULL,'{"id":4,"recipe_id":1,"position":4,"food_id":null,"basis":null,"weight_dg":null,"servings_hundredths":null,"item":"pepper","amount_thousandths":null,"unit":"pinch","hold_back_percent":null}');
INSERT INTO "change" VALUES(163,43,'recipe_allergen',1,NULL,'{"id":1,"recipe_id":1,"allergen":"wheat"}');
INSERT INTO "change" VALUES(164,44,'menu',1,NULL,'{"id":1,"made_on":"2026-09-15","from_day":"2026-09-15","days":3,"wishes":"{\"apart_days\": 1, \"breakfasts\": {\"least\": 0, \"most\": 0}, \"cooking_weekdays\": null, \"energy\": {\"least\": 85, \"most\": 120}, \"extras\": {\"least\": 0, \"most\": 2}, \"finish_packages\": false, \"helpings_percent\": [100, 150], \"mains\": {\"least\": 1, \"most\": 2}, \"past_best_by\": false, \"plan_energy\": {\"least\": 95, \"most\": 110}, \"protein_percent\": 80, \"reach_days\": 30, \"strict_dislikes\": false, \"water_ml_a_day\": null, \"water_ml_in_all\": null}","gap_millionths":null}');
INSERT INTO "change" VALUES(165,44,'planned_dish',1,NULL,'{"id":1,"menu_id":1,"on_day":"2026-09-16","position":1,"recipe_id":1,"name":"Pea soup","people":3,"locked":0,"meal_id":null}');
INSERT INTO "change" VALUES(166,45,'meal',2,NULL,'{"id":2,"recipe_id":1,"name":"Pea soup","people":1,"on_day":"2026-09-15","rehydration_water_dg":793,"cooking_water_dg":1250,"wetted_at":"2026-09-15T12:00:00+00:00","eat_by":"2026-09-18"}');
INSERT INTO "change" VALUES(167,45,'draw',6,NULL,'{"id":6,"package_id":1,"meal_id":2,"on_day":"2026-09-15","dry_dg":117,"water_dg":638,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(168,45,'package',1,'{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":33,"sealed_on":"2026-09-01","location_id":3,"condition":"opened","opened_on":"2026-09-15","gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":1,"code":"26244A01K","lot_id":1,"food_id":2,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":300,"water_dg":1635,"taken_dg":150,"sealed_on":"2026-09-01","location_id":3,"condition":"opened","opened_on":"2026-09-15","gone_on":null,"note":"crème – went soft once","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(169,45,'draw',7,NULL,'{"id":7,"package_id":8,"meal_id":2,"on_day":"2026-09-15","dry_dg":24,"water_dg":155,"note":"","purpose":"eat"}');
INSERT INTO "change" VALUES(170,45,'package',8,'{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":170,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":8,"code":"26244B046","lot_id":2,"food_id":3,"number":4,"container_id":4,"absorber_cc":300,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":404,"water_dg":2603,"taken_dg":194,"sealed_on":"2026-09-01","location_id":4,"condition":"opened","opened_on":"2026-09-08","gone_on":null,"note":"","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(171,45,'planned_dish',1,'{"id":1,"menu_id":1,"on_day":"2026-09-16","position":1,"recipe_id":1,"name":"Pea soup","people":3,"locked":0,"meal_id":null}','{"id":1,"menu_id":1,"on_day":"2026-09-16","position":1,"recipe_id":1,"name":"Pea soup","people":3,"locked":0,"meal_id":2}');
INSERT INTO "change" VALUES(172,46,'run',2,NULL,'{"id":2,"started_on":"2026-09-20","closed_on":null,"state":"open","note":""}');
INSERT INTO "change" VALUES(173,47,'tray',3,NULL,'{"id":3,"run_id":2,"position":1,"food_id":3,"lot_id":null}');
INSERT INTO "change" VALUES(174,47,'weighing',7,NULL,'{"id":7,"tray_id":3,"stage":"wet","gross_dg":12000,"tare_dg":800,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(175,48,'weighing',8,NULL,'{"id":8,"tray_id":3,"stage":"dry","gross_dg":2450,"tare_dg":800,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","hours_tenths":200}');
INSERT INTO "change" VALUES(176,49,'weighing',9,NULL,'{"id":9,"tray_id":3,"stage":"dry","gross_dg":2390,"tare_dg":800,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","hours_tenths":220}');
INSERT INTO "change" VALUES(177,50,'dryness_check',5,NULL,'{"id":5,"tray_id":3,"kind":"cold","passed":0,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","note":"a cold middle"}');
INSERT INTO "change" VALUES(178,51,'extra_drying',1,NULL,'{"id":1,"run_id":2,"hours_tenths":20,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","due_at":"2026-09-20T14:00+00:00","last_weighing_id":9,"last_check_id":5,"note":"für Zoë"}');
INSERT INTO "change" VALUES(179,52,'weighing',10,NULL,'{"id":10,"tray_id":3,"stage":"dry","gross_dg":2389,"tare_dg":800,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","hours_tenths":240}');
INSERT INTO "change" VALUES(180,53,'dryness_check',6,NULL,'{"id":6,"tray_id":3,"kind":"cold","passed":1,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(181,54,'dryness_check',7,NULL,'{"id":7,"tray_id":3,"kind":"break","passed":1,"on_day":"2026-09-20","at":"2026-09-20T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(182,55,'lot',3,NULL,'{"id":3,"code":"26263A","run_id":2,"food_id":3,"made_on":"2026-09-20","preparation":"ready","wet_dg":11200,"dry_dg":1589,"note":"","dealt_before_dg":0,"dealt_before_water_dg":0}');
INSERT INTO "change" VALUES(183,55,'tray',3,'{"id":3,"run_id":2,"position":1,"food_id":3,"lot_id":null}','{"id":3,"run_id":2,"position":1,"food_id":3,"lot_id":3}');
INSERT INTO "change" VALUES(184,55,'run',2,'{"id":2,"started_on":"2026-09-20","closed_on":null,"state":"open","note":""}','{"id":2,"started_on":"2026-09-20","closed_on":"2026-09-20","state":"closed","note":""}');
INSERT INTO "change" VALUES(185,56,'package',9,NULL,'{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(186,56,'package_event',24,NULL,'{"id":24,"package_id":9,"on_day":"2026-09-20","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(187,56,'package',10,NULL,'{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(188,56,'package_event',25,NULL,'{"id":25,"package_id":10,"on_day":"2026-09-20","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(189,56,'package',11,NULL,'{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(190,56,'package_event',26,NULL,'{"id":26,"package_id":11,"on_day":"2026-09-20","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(191,57,'package',9,'{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(192,57,'package_event',27,NULL,'{"id":27,"package_id":9,"on_day":"2026-09-21","event":"soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"limp"}');
INSERT INTO "change" VALUES(193,57,'package',10,'{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(194,57,'package_event',28,NULL,'{"id":28,"package_id":10,"on_day":"2026-09-21","event":"sister_soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"26263A019 went soft"}');
INSERT INTO "change" VALUES(195,57,'package',11,'{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(196,57,'package_event',29,NULL,'{"id":29,"package_id":11,"on_day":"2026-09-21","event":"sister_soft","from_condition":"settling","to_condition":"suspect","from_location_id":null,"to_location_id":null,"note":"26263A019 went soft"}');
INSERT INTO "change" VALUES(197,58,'inspection',1,NULL,'{"id":1,"package_id":9,"on_day":"2026-09-21","answers":"{\"feel\": \"slightly_soft\", \"signs\": \"none\", \"hours_since_sealing\": \"22\"}","outcome":"dry_again","rule":"within_a_day","reason":"Soft about a day after sealing, it was never dry: there was no time for harm, and the other packages share the fault. Dry the whole lot again, repack it with new absorbers under a new date, and keep it in the freezer meanwhile.","use_by":null,"note":""}');
INSERT INTO "change" VALUES(198,58,'package',9,'{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(199,58,'package_event',30,NULL,'{"id":30,"package_id":9,"on_day":"2026-09-21","event":"hold","from_condition":"suspect","to_condition":"held","from_location_id":null,"to_location_id":null,"note":"slightly soft within a day of sealing"}');
INSERT INTO "change" VALUES(200,58,'redrying',1,NULL,'{"id":1,"lot_id":3,"package_id":9,"dry_dg":350,"since":"2026-09-21","reason":"slightly soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(201,58,'package',9,'{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(202,58,'package_event',31,NULL,'{"id":31,"package_id":9,"on_day":"2026-09-21","event":"moved","from_condition":"held","to_condition":"held","from_location_id":4,"to_location_id":5,"note":""}');
INSERT INTO "change" VALUES(203,58,'package',10,'{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(204,58,'package_event',32,NULL,'{"id":32,"package_id":10,"on_day":"2026-09-21","event":"hold","from_condition":"suspect","to_condition":"held","from_location_id":null,"to_location_id":null,"note":"26263A019 was soft within a day of sealing"}');
INSERT INTO "change" VALUES(205,58,'redrying',2,NULL,'{"id":2,"lot_id":3,"package_id":10,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(206,58,'package',10,'{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(207,58,'package_event',33,NULL,'{"id":33,"package_id":10,"on_day":"2026-09-21","event":"moved","from_condition":"held","to_condition":"held","from_location_id":4,"to_location_id":5,"note":""}');
INSERT INTO "change" VALUES(208,58,'package',11,'{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"suspect","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(209,58,'package_event',34,NULL,'{"id":34,"package_id":11,"on_day":"2026-09-21","event":"hold","from_condition":"suspect","to_condition":"held","from_location_id":null,"to_location_id":null,"note":"26263A019 was soft within a day of sealing"}');
INSERT INTO "change" VALUES(210,58,'redrying',3,NULL,'{"id":3,"lot_id":3,"package_id":11,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(211,58,'package',11,'{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":4,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(212,58,'package_event',35,NULL,'{"id":35,"package_id":11,"on_day":"2026-09-21","event":"moved","from_condition":"held","to_condition":"held","from_location_id":4,"to_location_id":5,"note":""}');
INSERT INTO "change" VALUES(213,59,'redrying',4,NULL,'{"id":4,"lot_id":3,"package_id":null,"dry_dg":539,"since":"2026-09-21","reason":"sisters soft","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(214,60,'run',3,NULL,'{"id":3,"started_on":"2026-09-23","closed_on":null,"state":"open","note":"only what was soft"}');
INSERT INTO "change" VALUES(215,61,'tray',4,NULL,'{"id":4,"run_id":3,"position":1,"food_id":3,"lot_id":null}');
INSERT INTO "change" VALUES(216,61,'redrying',1,'{"id":1,"lot_id":3,"package_id":9,"dry_dg":350,"since":"2026-09-21","reason":"slightly soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":1,"lot_id":3,"package_id":9,"dry_dg":350,"since":"2026-09-21","reason":"slightly soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(217,61,'redrying',2,'{"id":2,"lot_id":3,"package_id":10,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":2,"lot_id":3,"package_id":10,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(218,61,'redrying',3,'{"id":3,"lot_id":3,"package_id":11,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":3,"lot_id":3,"package_id":11,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(219,61,'weighing',11,NULL,'{"id":11,"tray_id":4,"stage":"wet","gross_dg":1090,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(220,62,'weighing',12,NULL,'{"id":12,"tray_id":4,"stage":"dry","gross_dg":1035,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(221,63,'weighing',13,NULL,'{"id":13,"tray_id":4,"stage":"dry","gross_dg":1035,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(222,64,'dryness_check',8,NULL,'{"id":8,"tray_id":4,"kind":"cold","passed":1,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(223,65,'dryness_check',9,NULL,'{"id":9,"tray_id":4,"kind":"break","passed":1,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(224,66,'tray',5,NULL,'{"id":5,"run_id":3,"position":2,"food_id":3,"lot_id":null}');
INSERT INTO "change" VALUES(225,66,'redrying',4,'{"id":4,"lot_id":3,"package_id":null,"dry_dg":539,"since":"2026-09-21","reason":"sisters soft","tray_id":null,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":4,"lot_id":3,"package_id":null,"dry_dg":539,"since":"2026-09-21","reason":"sisters soft","tray_id":5,"driven_off_dg":0,"ended_on":null,"ending":""}');
INSERT INTO "change" VALUES(226,66,'weighing',14,NULL,'{"id":14,"tray_id":5,"stage":"wet","gross_dg":520,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(227,67,'weighing',15,NULL,'{"id":15,"tray_id":5,"stage":"dry","gross_dg":500,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(228,68,'weighing',16,NULL,'{"id":16,"tray_id":5,"stage":"dry","gross_dg":500,"tare_dg":0,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","hours_tenths":null}');
INSERT INTO "change" VALUES(229,69,'dryness_check',10,NULL,'{"id":10,"tray_id":5,"kind":"cold","passed":1,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(230,70,'dryness_check',11,NULL,'{"id":11,"tray_id":5,"kind":"break","passed":1,"on_day":"2026-09-23","at":"2026-09-23T12:00:00+00:00","note":""}');
INSERT INTO "change" VALUES(231,71,'lot',3,'{"id":3,"code":"26263A","run_id":2,"food_id":3,"made_on":"2026-09-20","preparation":"ready","wet_dg":11200,"dry_dg":1589,"note":"","dealt_before_dg":0,"dealt_before_water_dg":0}','{"id":3,"code":"26263A","run_id":2,"food_id":3,"made_on":"2026-09-20","preparation":"ready","wet_dg":11200,"dry_dg":1569,"note":"","dealt_before_dg":1050,"dealt_before_water_dg":6351}');
INSERT INTO "change" VALUES(232,71,'redrying',4,'{"id":4,"lot_id":3,"package_id":null,"dry_dg":539,"since":"2026-09-21","reason":"sisters soft","tray_id":5,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":4,"lot_id":3,"package_id":null,"dry_dg":539,"since":"2026-09-21","reason":"sisters soft","tray_id":5,"driven_off_dg":20,"ended_on":"2026-09-23","ending":"dried"}');
INSERT INTO "change" VALUES(233,71,'run',3,'{"id":3,"started_on":"2026-09-23","closed_on":null,"state":"open","note":"only what was soft"}','{"id":3,"started_on":"2026-09-23","closed_on":"2026-09-23","state":"closed","note":"only what was soft"}');
INSERT INTO "change" VALUES(234,72,'package',12,NULL,'{"id":12,"code":"26263A043","lot_id":3,"food_id":3,"number":4,"container_id":20,"absorber_cc":200,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":400,"water_dg":2419,"taken_dg":0,"sealed_on":"2026-09-23","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"dried again","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"redried","first_sealed_on":"2026-09-20","exposed_on":null,"life_before_millionths":5521}');
INSERT INTO "change" VALUES(235,72,'package_event',36,NULL,'{"id":36,"package_id":12,"on_day":"2026-09-23","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(236,72,'package',13,NULL,'{"id":13,"code":"26263A051","lot_id":3,"food_id":3,"number":5,"container_id":20,"absorber_cc":200,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":400,"water_dg":2420,"taken_dg":0,"sealed_on":"2026-09-23","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"dried again","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"redried","first_sealed_on":"2026-09-20","exposed_on":null,"life_before_millionths":5521}');
INSERT INTO "change" VALUES(237,72,'package_event',37,NULL,'{"id":37,"package_id":13,"on_day":"2026-09-23","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(238,72,'package',14,NULL,'{"id":14,"code":"26263A060","lot_id":3,"food_id":3,"number":6,"container_id":18,"absorber_cc":0,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":235,"water_dg":1421,"taken_dg":0,"sealed_on":"2026-09-23","location_id":4,"condition":"settling","opened_on":null,"gone_on":null,"note":"dried again","absorber_packet":"","container_box":"","tray_position":null,"gate_reason":"","origin":"redried","first_sealed_on":"2026-09-20","exposed_on":null,"life_before_millionths":5521}');
INSERT INTO "change" VALUES(239,72,'package_event',38,NULL,'{"id":38,"package_id":14,"on_day":"2026-09-23","event":"sealed","from_condition":null,"to_condition":"settling","from_location_id":null,"to_location_id":4,"note":""}');
INSERT INTO "change" VALUES(240,72,'draw',8,NULL,'{"id":8,"package_id":9,"meal_id":null,"on_day":"2026-09-23","dry_dg":350,"water_dg":2117,"note":"","purpose":"again"}');
INSERT INTO "change" VALUES(241,72,'package',9,'{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":9,"code":"26263A019","lot_id":3,"food_id":3,"number":1,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":350,"sealed_on":"2026-09-20","location_id":5,"condition":"used","opened_on":null,"gone_on":"2026-09-23","note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(242,72,'package_event',39,NULL,'{"id":39,"package_id":9,"on_day":"2026-09-23","event":"redried","from_condition":"held","to_condition":"used","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(243,72,'redrying',1,'{"id":1,"lot_id":3,"package_id":9,"dry_dg":350,"since":"2026-09-21","reason":"slightly soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":1,"lot_id":3,"package_id":9,"dry_dg":350,"since":"2026-09-21","reason":"slightly soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":"2026-09-23","ending":"packed"}');
INSERT INTO "change" VALUES(244,72,'package_source',1,NULL,'{"id":1,"package_id":12,"source_package_id":9}');
INSERT INTO "change" VALUES(245,72,'package_source',2,NULL,'{"id":2,"package_id":13,"source_package_id":9}');
INSERT INTO "change" VALUES(246,72,'package_source',3,NULL,'{"id":3,"package_id":14,"source_package_id":9}');
INSERT INTO "change" VALUES(247,72,'draw',9,NULL,'{"id":9,"package_id":10,"meal_id":null,"on_day":"2026-09-23","dry_dg":350,"water_dg":2117,"note":"","purpose":"again"}');
INSERT INTO "change" VALUES(248,72,'package',10,'{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":10,"code":"26263A027","lot_id":3,"food_id":3,"number":2,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":350,"sealed_on":"2026-09-20","location_id":5,"condition":"used","opened_on":null,"gone_on":"2026-09-23","note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(249,72,'package_event',40,NULL,'{"id":40,"package_id":10,"on_day":"2026-09-23","event":"redried","from_condition":"held","to_condition":"used","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(250,72,'redrying',2,'{"id":2,"lot_id":3,"package_id":10,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":2,"lot_id":3,"package_id":10,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":"2026-09-23","ending":"packed"}');
INSERT INTO "change" VALUES(251,72,'package_source',4,NULL,'{"id":4,"package_id":12,"source_package_id":10}');
INSERT INTO "change" VALUES(252,72,'package_source',5,NULL,'{"id":5,"package_id":13,"source_package_id":10}');
INSERT INTO "change" VALUES(253,72,'package_source',6,NULL,'{"id":6,"package_id":14,"source_package_id":10}');
INSERT INTO "change" VALUES(254,72,'draw',10,NULL,'{"id":10,"package_id":11,"meal_id":null,"on_day":"2026-09-23","dry_dg":350,"water_dg":2117,"note":"","purpose":"again"}');
INSERT INTO "change" VALUES(255,72,'package',11,'{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":0,"sealed_on":"2026-09-20","location_id":5,"condition":"held","opened_on":null,"gone_on":null,"note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}','{"id":11,"code":"26263A035","lot_id":3,"food_id":3,"number":3,"container_id":1,"absorber_cc":100,"vacuum":0,"vacuum_tenth_inhg":null,"dry_dg":350,"water_dg":2117,"taken_dg":350,"sealed_on":"2026-09-20","location_id":5,"condition":"used","opened_on":null,"gone_on":"2026-09-23","note":"","absorber_packet":"P7","container_box":"Blue","tray_position":1,"gate_reason":"","origin":"packed","first_sealed_on":null,"exposed_on":null,"life_before_millionths":null}');
INSERT INTO "change" VALUES(256,72,'package_event',41,NULL,'{"id":41,"package_id":11,"on_day":"2026-09-23","event":"redried","from_condition":"held","to_condition":"used","from_location_id":null,"to_location_id":null,"note":""}');
INSERT INTO "change" VALUES(257,72,'redrying',3,'{"id":3,"lot_id":3,"package_id":11,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":null,"ending":""}','{"id":3,"lot_id":3,"package_id":11,"dry_dg":350,"since":"2026-09-21","reason":"26263A019 was soft within a day of sealing","tray_id":4,"driven_off_dg":0,"ended_on":"2026-09-23","ending":"packed"}');
INSERT INTO "change" VALUES(258,72,'package_source',7,NULL,'{"id":7,"package_id":12,"source_package_id":11}');
INSERT INTO "change" VALUES(259,72,'package_source',8,NULL,'{"id":8,"package_id":13,"source_package_id":11}');
INSERT INTO "change" VALUES(260,72,'package_source',9,NULL,'{"id":9,"package_id":14,"source_package_id":11}');
INSERT INTO "change" VALUES(261,73,'equipment_check',1,NULL,'{"id":1,"task":"gasket","on_day":"2026-09-25","passed":1,"note":"wiped"}');
INSERT INTO "change" VALUES(262,74,'equipment_check',2,NULL,'{"id":2,"task":"hose","on_day":"2026-09-25","passed":0,"note":"a crack"}');
INSERT INTO "change" VALUES(263,75,'equipment_reading',1,NULL,'{"id":1,"on_day":"2026-09-25","volume_ml":40000,"from_microbar":300,"to_microbar":500,"seconds":600,"dry_empty":1,"note":""}');
INSERT INTO "change" VALUES(264,75,'equipment_check',3,NULL,'{"id":3,"task":"leak","on_day":"2026-09-25","passed":1,"note":"0.0133 mbar L/s"}');
INSERT INTO "change" VALUES(265,76,'run',4,NULL,'{"id":4,"started_on":"2026-10-01","closed_on":null,"state":"open","note":"beef to come"}');
INSERT INTO "change" VALUES(266,77,'food',4,NULL,'{"id":4,"name":"Beef, eye of round, lean, raw","reference_key":"beef_eye_round_raw","food_group":"meat_raw","food_class":"lean_meat","preparation":"raw","serving_dg":1140,"water_cg":7343,"energy_tenth_kcal":1240,"protein_cg":2260,"fat_cg":300,"ash_cg":108,"carbohydrate_cg":0,"fibre_cg":0,"sugars_cg":0,"ingredients_unknown":0,"note":""}');
INSERT INTO "change" VALUES(267,77,'tray',6,NULL,'{"id":6,"run_id":4,"position":1,"food_id":4,"lot_id":null}');
INSERT INTO "change" VALUES(268,77,'weighing',17,NULL,'{"id":17,"tray_id":6,"stage":"wet","gross_dg":12000,"tare_dg":800,"on_day":"2026-10-01","at":"2026-10-01T12:00:00+00:00","hours_tenths":null}');
CREATE TABLE container (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    package_kind TEXT NOT NULL CHECK (package_kind IN ('foil_pouch', 'metallised_pouch',
        'vacuum_bag', 'zip_bag', 'jar')),
    volume_ml INTEGER NOT NULL CHECK (volume_ml BETWEEN 1 AND 100000),
    width_mm INTEGER CHECK (width_mm > 0),
    height_mm INTEGER CHECK (height_mm > 0)
) STRICT;
INSERT INTO "container" VALUES(1,'pouch-400-foil','foil pouch 400 mL','foil_pouch',400,150,200);
INSERT INTO "container" VALUES(2,'pouch-475-foil','foil pouch 475 mL','foil_pouch',475,NULL,NULL);
INSERT INTO "container" VALUES(3,'pouch-950-foil','foil pouch 950 mL','foil_pouch',946,NULL,NULL);
INSERT INTO "container" VALUES(4,'pouch-1500-foil','foil pouch 1.5 L','foil_pouch',1500,200,300);
INSERT INTO "container" VALUES(5,'pouch-1900-foil','foil pouch 1.9 L','foil_pouch',1893,NULL,NULL);
INSERT INTO "container" VALUES(6,'pouch-3785-foil','foil pouch 3.8 L','foil_pouch',3785,NULL,NULL);
INSERT INTO "container" VALUES(7,'pouch-400-metallised','metallised pouch 400 mL','metallised_pouch',400,150,200);
INSERT INTO "container" VALUES(8,'pouch-950-metallised','metallised pouch 950 mL','metallised_pouch',946,NULL,NULL);
INSERT INTO "container" VALUES(9,'pouch-1500-metallised','metallised pouch 1.5 L','metallised_pouch',1500,200,300);
INSERT INTO "container" VALUES(10,'pouch-3785-metallised','metallised pouch 3.8 L','metallised_pouch',3785,NULL,NULL);
INSERT INTO "container" VALUES(11,'bag-vacuum-950','vacuum bag 950 mL','vacuum_bag',946,NULL,NULL);
INSERT INTO "container" VALUES(12,'bag-vacuum-1500','vacuum bag 1.5 L','vacuum_bag',1500,200,300);
INSERT INTO "container" VALUES(13,'bag-vacuum-3785','vacuum bag 3.8 L','vacuum_bag',3785,NULL,NULL);
INSERT INTO "container" VALUES(14,'bag-zip-1000','zip bag 1 L','zip_bag',1000,NULL,NULL);
INSERT INTO "container" VALUES(15,'bag-zip-950','zip bag 950 mL','zip_bag',946,NULL,NULL);
INSERT INTO "container" VALUES(16,'bag-zip-3785','zip bag 3.8 L','zip_bag',3785,NULL,NULL);
INSERT INTO "container" VALUES(17,'jar-240','jar 240 mL','jar',237,NULL,NULL);
INSERT INTO "container" VALUES(18,'jar-475','jar 475 mL','jar',475,NULL,NULL);
INSERT INTO "container" VALUES(19,'jar-700','jar 700 mL','jar',710,NULL,NULL);
INSERT INTO "container" VALUES(20,'jar-950','jar 950 mL','jar',946,NULL,NULL);
INSERT INTO "container" VALUES(21,'jar-1900','jar 1.9 L','jar',1900,NULL,NULL);
INSERT INTO "container" VALUES(22,'jar-3785','jar 3.8 L','jar',3785,NULL,NULL);
INSERT INTO "container" VALUES(23,'can-3300','seamed can 3.3 L','jar',3300,NULL,NULL);
CREATE TABLE draw (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    meal_id INTEGER REFERENCES meal (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    note TEXT NOT NULL DEFAULT ''
, purpose TEXT NOT NULL DEFAULT 'eat'
    CHECK (purpose IN ('eat', 'again', 'test'))) STRICT;
INSERT INTO "draw" VALUES(1,8,NULL,'2026-09-08',123,792,'','eat');
INSERT INTO "draw" VALUES(2,4,1,'2026-09-15',200,1091,'','eat');
INSERT INTO "draw" VALUES(3,1,1,'2026-09-15',33,180,'','eat');
INSERT INTO "draw" VALUES(4,8,1,'2026-09-15',47,303,'','eat');
INSERT INTO "draw" VALUES(5,3,NULL,'2026-09-15',300,1635,'','eat');
INSERT INTO "draw" VALUES(6,1,2,'2026-09-15',117,638,'','eat');
INSERT INTO "draw" VALUES(7,8,2,'2026-09-15',24,155,'','eat');
INSERT INTO "draw" VALUES(8,9,NULL,'2026-09-23',350,2117,'','again');
INSERT INTO "draw" VALUES(9,10,NULL,'2026-09-23',350,2117,'','again');
INSERT INTO "draw" VALUES(10,11,NULL,'2026-09-23',350,2117,'','again');
CREATE TABLE dryness_check (
    id INTEGER PRIMARY KEY,
    tray_id INTEGER NOT NULL REFERENCES tray (id),
    kind TEXT NOT NULL CHECK (kind IN ('cold', 'break')),
    passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL,
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "dryness_check" VALUES(1,1,'cold',1,'2026-09-01','2026-09-01T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(2,1,'break',1,'2026-09-01','2026-09-01T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(3,2,'cold',1,'2026-09-01','2026-09-01T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(4,2,'break',1,'2026-09-01','2026-09-01T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(5,3,'cold',0,'2026-09-20','2026-09-20T12:00:00+00:00','a cold middle');
INSERT INTO "dryness_check" VALUES(6,3,'cold',1,'2026-09-20','2026-09-20T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(7,3,'break',1,'2026-09-20','2026-09-20T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(8,4,'cold',1,'2026-09-23','2026-09-23T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(9,4,'break',1,'2026-09-23','2026-09-23T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(10,5,'cold',1,'2026-09-23','2026-09-23T12:00:00+00:00','');
INSERT INTO "dryness_check" VALUES(11,5,'break',1,'2026-09-23','2026-09-23T12:00:00+00:00','');
CREATE TABLE equipment_check (
    id INTEGER PRIMARY KEY,
    task TEXT NOT NULL CHECK (task <> ''),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "equipment_check" VALUES(1,'gasket','2026-09-25',1,'wiped');
INSERT INTO "equipment_check" VALUES(2,'hose','2026-09-25',0,'a crack');
INSERT INTO "equipment_check" VALUES(3,'leak','2026-09-25',1,'0.0133 mbar L/s');
CREATE TABLE equipment_reading (
    id INTEGER PRIMARY KEY,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    volume_ml INTEGER NOT NULL CHECK (volume_ml > 0),
    from_microbar INTEGER NOT NULL CHECK (from_microbar >= 0),
    to_microbar INTEGER NOT NULL CHECK (to_microbar >= 0),
    seconds INTEGER NOT NULL CHECK (seconds > 0),
    dry_empty INTEGER NOT NULL CHECK (dry_empty IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "equipment_reading" VALUES(1,'2026-09-25',40000,300,500,600,1,'');
CREATE TABLE extra_drying (
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES run (id),
    hours_tenths INTEGER NOT NULL CHECK (hours_tenths BETWEEN 1 AND 10000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL,
    due_at TEXT NOT NULL,
    last_weighing_id INTEGER NOT NULL DEFAULT 0,
    last_check_id INTEGER NOT NULL DEFAULT 0,
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "extra_drying" VALUES(1,2,20,'2026-09-20','2026-09-20T12:00:00+00:00','2026-09-20T14:00+00:00',9,5,'für Zoë');
CREATE TABLE food (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    reference_key TEXT,
    food_group TEXT NOT NULL CHECK (food_group <> ''),
    food_class TEXT NOT NULL CHECK (food_class IN ('fruit', 'vegetable', 'starch', 'lean_meat',
        'meal', 'egg', 'nonfat_dairy', 'fatty_dairy', 'nuts')),
    preparation TEXT NOT NULL CHECK (preparation IN ('raw', 'cooked', 'ready')),
    serving_dg INTEGER NOT NULL CHECK (serving_dg BETWEEN 1 AND 1000000),
    water_cg INTEGER CHECK (water_cg BETWEEN 0 AND 10000),
    energy_tenth_kcal INTEGER CHECK (energy_tenth_kcal BETWEEN 0 AND 9100),
    protein_cg INTEGER CHECK (protein_cg BETWEEN 0 AND 10000),
    fat_cg INTEGER CHECK (fat_cg BETWEEN 0 AND 10000),
    ash_cg INTEGER CHECK (ash_cg BETWEEN 0 AND 10000),
    carbohydrate_cg INTEGER CHECK (carbohydrate_cg BETWEEN 0 AND 10000),
    fibre_cg INTEGER CHECK (fibre_cg BETWEEN 0 AND 10000),
    sugars_cg INTEGER CHECK (sugars_cg BETWEEN 0 AND 10000),
    ingredients_unknown INTEGER NOT NULL DEFAULT 0 CHECK (ingredients_unknown IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "food" VALUES(1,'Fish fingers, ours','cod_raw','fish','lean_meat','raw',1100,8122,820,1781,67,116,0,0,0,0,'Zoë’s');
INSERT INTO "food" VALUES(2,'Peas, green, frozen, boiled','pea_frozen_cooked','vegetable','vegetable','cooked',850,7952,780,515,27,80,1426,450,440,0,'');
INSERT INTO "food" VALUES(3,'Apple, raw, peeled','apple_raw_peeled','fruit','fruit','ready',1400,8667,480,27,13,17,1276,130,1010,0,'');
INSERT INTO "food" VALUES(4,'Beef, eye of round, lean, raw','beef_eye_round_raw','meat_raw','lean_meat','raw',1140,7343,1240,2260,300,108,0,0,0,0,'');
CREATE TABLE food_allergen (
    id INTEGER PRIMARY KEY,
    food_id INTEGER NOT NULL REFERENCES food (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (food_id, allergen)
) STRICT;
INSERT INTO "food_allergen" VALUES(1,1,'fish');
INSERT INTO "food_allergen" VALUES(2,1,'wheat');
CREATE TABLE food_measure (
    id INTEGER PRIMARY KEY,
    food_id INTEGER NOT NULL REFERENCES food (id),
    name TEXT NOT NULL COLLATE NOCASE CHECK (trim(name) <> ''),
    basis TEXT NOT NULL CHECK (basis IN ('fresh', 'dry')),
    weight_dg INTEGER NOT NULL CHECK (weight_dg BETWEEN 1 AND 1000000),
    UNIQUE (food_id, name)
) STRICT;
INSERT INTO "food_measure" VALUES(1,2,'cup','dry',380);
CREATE TABLE household_member (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    sex TEXT NOT NULL CHECK (sex IN ('F', 'M')),
    age_tenths INTEGER NOT NULL CHECK (age_tenths BETWEEN 0 AND 1200),
    age_on TEXT NOT NULL CHECK (age_on IS date(age_on, '+0 days')),
    body_weight_dg INTEGER CHECK (body_weight_dg BETWEEN 1 AND 5000000),
    height_mm INTEGER CHECK (height_mm BETWEEN 1 AND 3000),
    activity TEXT NOT NULL CHECK (activity IN ('sedentary', 'low', 'active', 'very')),
    edition TEXT NOT NULL CHECK (edition <> '')
) STRICT;
INSERT INTO "household_member" VALUES(1,'Runa','F',410,'2026-09-15',NULL,NULL,'low','2020-2025');
CREATE TABLE inspection (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    answers TEXT NOT NULL CHECK (json_valid(answers)),
    outcome TEXT NOT NULL CHECK (outcome IN ('dry_again', 'hold', 'use_now', 'repack', 'discard')),
    rule TEXT NOT NULL,
    reason TEXT NOT NULL,
    use_by TEXT CHECK (use_by IS date(use_by, '+0 days')),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "inspection" VALUES(1,9,'2026-09-21','{"feel": "slightly_soft", "signs": "none", "hours_since_sealing": "22"}','dry_again','within_a_day','Soft about a day after sealing, it was never dry: there was no time for harm, and the other packages share the fault. Dry the whole lot again, repack it with new absorbers under a new date, and keep it in the freezer meanwhile.',NULL,'');
CREATE TABLE journal (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    actor TEXT NOT NULL CHECK (trim(actor) <> ''),
    kind TEXT NOT NULL CHECK (kind IN ('do', 'undo', 'redo')),
    action TEXT NOT NULL CHECK (action <> ''),
    words TEXT NOT NULL DEFAULT '',
    reverses_id INTEGER UNIQUE REFERENCES journal (id),
    CHECK ((kind = 'do') = (reverses_id IS NULL))
) STRICT;
INSERT INTO "journal" VALUES(1,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','init','started the stockroom for 2 people',NULL);
INSERT INTO "journal" VALUES(2,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','added the place cellar',NULL);
INSERT INTO "journal" VALUES(3,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','added the place cellar/rack 1',NULL);
INSERT INTO "journal" VALUES(4,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','added the place cellar/rack 1/bin 2',NULL);
INSERT INTO "journal" VALUES(5,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','added the place loft',NULL);
INSERT INTO "journal" VALUES(6,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','changed the place cellar',NULL);
INSERT INTO "journal" VALUES(7,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','place','added the place chest freezer',NULL);
INSERT INTO "journal" VALUES(8,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','climate','set the humidity of cellar to 70 %',NULL);
INSERT INTO "journal" VALUES(9,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','climate','gave loft monthly temperatures',NULL);
INSERT INTO "journal" VALUES(10,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','climate','kept 3 temperature readings for chest freezer, 1 rows left out',NULL);
INSERT INTO "journal" VALUES(11,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','food','added the food Fish fingers, ours',NULL);
INSERT INTO "journal" VALUES(12,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','run','started run 1',NULL);
INSERT INTO "journal" VALUES(13,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','load','loaded Peas, green, frozen, boiled on tray 1 of run 1, 1000.0 g',NULL);
INSERT INTO "journal" VALUES(14,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','weigh','weighed tray 1 of run 1 dry, 155.0 g Peas, green, frozen, boiled',NULL);
INSERT INTO "journal" VALUES(15,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','weigh','weighed tray 1 of run 1 dry, 155.0 g Peas, green, frozen, boiled',NULL);
INSERT INTO "journal" VALUES(16,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','test','cold touch of tray 1 of run 1 (Peas, green, frozen, boiled): no cold spot',NULL);
INSERT INTO "journal" VALUES(17,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','test','break test of tray 1 of run 1 (Peas, green, frozen, boiled): snaps',NULL);
INSERT INTO "journal" VALUES(18,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','load','loaded Apple, raw, peeled on tray 2 of run 1, 1203.4 g',NULL);
INSERT INTO "journal" VALUES(19,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','weigh','weighed tray 2 of run 1 dry, 161.7 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(20,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','weigh','weighed tray 2 of run 1 dry, 161.7 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(21,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','test','cold touch of tray 2 of run 1 (Apple, raw, peeled): no cold spot',NULL);
INSERT INTO "journal" VALUES(22,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','test','break test of tray 2 of run 1 (Apple, raw, peeled): snaps',NULL);
INSERT INTO "journal" VALUES(23,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','close','closed run 1 into lots 26244A, 26244B',NULL);
INSERT INTO "journal" VALUES(24,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','pack','packed lot 26244A (Peas, green, frozen, boiled) into 4 packages, 26244A01K to 26244A04E; 45.0 g left to pack',NULL);
INSERT INTO "journal" VALUES(25,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','loss','recorded 4.5 g of lot 26244A (Peas, green, frozen, boiled) as tasted',NULL);
INSERT INTO "journal" VALUES(26,'2026-09-01T12:00:00+00:00','2026-09-01','tester','do','pack','packed lot 26244B (Apple, raw, peeled) into 4 packages, 26244B01C to 26244B046',NULL);
INSERT INTO "journal" VALUES(27,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','check','checked 26244A01K (Peas, green, frozen, boiled): crisp, now sound',NULL);
INSERT INTO "journal" VALUES(28,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','check','checked 26244A02I (Peas, green, frozen, boiled): crisp, now sound',NULL);
INSERT INTO "journal" VALUES(29,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','check','checked 26244A03G (Peas, green, frozen, boiled): crisp, now sound',NULL);
INSERT INTO "journal" VALUES(30,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','check','checked 26244B01C (Apple, raw, peeled): soft, now suspect; 3 sisters of lot 26244B now suspect',NULL);
INSERT INTO "journal" VALUES(31,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','note','noted on 26244B02A: for Zoë',NULL);
INSERT INTO "journal" VALUES(32,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','move','moved 2 packages of Apple, raw, peeled, 26244B02A to 26244B038 to cellar/rack 1',NULL);
INSERT INTO "journal" VALUES(33,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','discard','discarded 26244B01C (Apple, raw, peeled): went soft, too long ago',NULL);
INSERT INTO "journal" VALUES(34,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','check','checked 26244B046 (Apple, raw, peeled): crisp, now sound',NULL);
INSERT INTO "journal" VALUES(35,'2026-09-08T12:00:00+00:00','2026-09-08','tester','do','draw','took 12.3 g of Apple, raw, peeled from 26244B046, water to add 79.2 g',NULL);
INSERT INTO "journal" VALUES(36,'2026-09-08T12:00:00+00:00','2026-09-08','tester','undo','undo','undid: took 12.3 g of Apple, raw, peeled from 26244B046, water to add 79.2 g',35);
INSERT INTO "journal" VALUES(37,'2026-09-08T12:00:00+00:00','2026-09-08','tester','redo','redo','redid: took 12.3 g of Apple, raw, peeled from 26244B046, water to add 79.2 g',36);
INSERT INTO "journal" VALUES(38,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','recipe','added the recipe Pea soup',NULL);
INSERT INTO "journal" VALUES(39,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','cook','cooked Pea soup for 2 from 3 packages, 157.4 g of water to rehydrate',NULL);
INSERT INTO "journal" VALUES(40,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','draw','took all 30.0 g of Peas, green, frozen, boiled from 26244A03G, water to add 163.5 g',NULL);
INSERT INTO "journal" VALUES(41,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','person','added the person Runa',NULL);
INSERT INTO "journal" VALUES(42,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','measure','set one cup of Peas, green, frozen, boiled to 38.0 g dry',NULL);
INSERT INTO "journal" VALUES(43,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','recipe','changed the recipe Pea soup',NULL);
INSERT INTO "journal" VALUES(44,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','menu','kept a menu of 1 dishes for 2026-09-15 to 2026-09-17',NULL);
INSERT INTO "journal" VALUES(45,'2026-09-15T12:00:00+00:00','2026-09-15','tester','do','cook-planned','cooked Pea soup for 1 from 2 packages, 79.3 g of water to rehydrate, as planned for 2026-09-16',NULL);
INSERT INTO "journal" VALUES(46,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','run','started run 2',NULL);
INSERT INTO "journal" VALUES(47,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','load','loaded Apple, raw, peeled on tray 1 of run 2, 1120.0 g',NULL);
INSERT INTO "journal" VALUES(48,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','weigh','weighed tray 1 of run 2 dry, 165.0 g Apple, raw, peeled after 20 h',NULL);
INSERT INTO "journal" VALUES(49,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','weigh','weighed tray 1 of run 2 dry, 159.0 g Apple, raw, peeled after 22 h',NULL);
INSERT INTO "journal" VALUES(50,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','test','cold touch of tray 1 of run 2 (Apple, raw, peeled): a cold spot',NULL);
INSERT INTO "journal" VALUES(51,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','more','run 2 dries 2 h more, to be weighed and tested again',NULL);
INSERT INTO "journal" VALUES(52,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','weigh','weighed tray 1 of run 2 dry, 158.9 g Apple, raw, peeled after 24 h',NULL);
INSERT INTO "journal" VALUES(53,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','test','cold touch of tray 1 of run 2 (Apple, raw, peeled): no cold spot',NULL);
INSERT INTO "journal" VALUES(54,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','test','break test of tray 1 of run 2 (Apple, raw, peeled): snaps',NULL);
INSERT INTO "journal" VALUES(55,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','close','closed run 2 into lot 26263A',NULL);
INSERT INTO "journal" VALUES(56,'2026-09-20T12:00:00+00:00','2026-09-20','tester','do','pack','packed lot 26263A (Apple, raw, peeled) into 3 packages, 26263A019 to 26263A035; 53.9 g left to pack',NULL);
INSERT INTO "journal" VALUES(57,'2026-09-21T12:00:00+00:00','2026-09-21','tester','do','check','checked 26263A019 (Apple, raw, peeled): soft, now suspect; 2 sisters of lot 26263A now suspect',NULL);
INSERT INTO "journal" VALUES(58,'2026-09-21T12:00:00+00:00','2026-09-21','tester','do','decide','decided on 26263A019 (Apple, raw, peeled): dry it again, to constant weight, and pack it anew, with 26263A027, 26263A035',NULL);
INSERT INTO "journal" VALUES(59,'2026-09-21T12:00:00+00:00','2026-09-21','tester','do','hold','held 53.9 g of lot 26263A (Apple, raw, peeled) until the machine is free',NULL);
INSERT INTO "journal" VALUES(60,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','run','started run 3',NULL);
INSERT INTO "journal" VALUES(61,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','load','loaded 26263A019, 26263A027, 26263A035 (Apple, raw, peeled) again on tray 1 of run 3, 109.0 g',NULL);
INSERT INTO "journal" VALUES(62,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','weigh','weighed tray 1 of run 3 dry, 103.5 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(63,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','weigh','weighed tray 1 of run 3 dry, 103.5 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(64,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','test','cold touch of tray 1 of run 3 (Apple, raw, peeled): no cold spot',NULL);
INSERT INTO "journal" VALUES(65,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','test','break test of tray 1 of run 3 (Apple, raw, peeled): snaps',NULL);
INSERT INTO "journal" VALUES(66,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','load','loaded 26263A (Apple, raw, peeled) again on tray 2 of run 3, 52.0 g',NULL);
INSERT INTO "journal" VALUES(67,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','weigh','weighed tray 2 of run 3 dry, 50.0 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(68,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','weigh','weighed tray 2 of run 3 dry, 50.0 g Apple, raw, peeled',NULL);
INSERT INTO "journal" VALUES(69,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','test','cold touch of tray 2 of run 3 (Apple, raw, peeled): no cold spot',NULL);
INSERT INTO "journal" VALUES(70,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','test','break test of tray 2 of run 3 (Apple, raw, peeled): snaps',NULL);
INSERT INTO "journal" VALUES(71,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','close','closed run 3; dried again: 26263A019, 26263A027, 26263A035, 26263A',NULL);
INSERT INTO "journal" VALUES(72,'2026-09-23T12:00:00+00:00','2026-09-23','tester','do','repack','packed 26263A019, 26263A027, 26263A035 (Apple, raw, peeled) anew, dried again, into 3 packages, 26263A043 to 26263A060',NULL);
INSERT INTO "journal" VALUES(73,'2026-09-25T12:00:00+00:00','2026-09-25','tester','do','upkeep','door seal: done, wiped',NULL);
INSERT INTO "journal" VALUES(74,'2026-09-25T12:00:00+00:00','2026-09-25','tester','do','upkeep','hose, belt and cord: found at fault, a crack',NULL);
INSERT INTO "journal" VALUES(75,'2026-09-25T12:00:00+00:00','2026-09-25','tester','do','leak-test','leak test: 0.0133 mbar L/s, within the limit',NULL);
INSERT INTO "journal" VALUES(76,'2026-10-01T12:00:00+00:00','2026-10-01','tester','do','run','started run 4',NULL);
INSERT INTO "journal" VALUES(77,'2026-10-01T12:00:00+00:00','2026-10-01','tester','do','load','loaded Beef, eye of round, lean, raw on tray 1 of run 4, 1120.0 g',NULL);
CREATE TABLE location (
    id INTEGER PRIMARY KEY,
    parent_id INTEGER REFERENCES location (id),
    name TEXT NOT NULL COLLATE NOCASE CHECK (trim(name) <> '' AND instr(name, '/') = 0),
    kind TEXT NOT NULL CHECK (kind IN ('cupboard', 'cellar', 'loft', 'room', 'freezer',
        'refrigerator', 'rack', 'bin')),
    temperature_dc INTEGER CHECK (temperature_dc BETWEEN -800 AND 600),
    note TEXT NOT NULL DEFAULT '', humidity_percent INTEGER CHECK (humidity_percent BETWEEN 1 AND 99),
    CHECK (parent_id <> id)
) STRICT;
INSERT INTO "location" VALUES(1,NULL,'cellar','room',120,'',70);
INSERT INTO "location" VALUES(2,1,'rack 1','rack',NULL,'',NULL);
INSERT INTO "location" VALUES(3,2,'bin 2','bin',NULL,'',NULL);
INSERT INTO "location" VALUES(4,NULL,'loft','room',NULL,'',NULL);
INSERT INTO "location" VALUES(5,NULL,'chest freezer','room',-180,'',NULL);
CREATE TABLE location_temperature (
    id INTEGER PRIMARY KEY,
    location_id INTEGER NOT NULL REFERENCES location (id),
    month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
    temperature_dc INTEGER NOT NULL CHECK (temperature_dc BETWEEN -800 AND 600),
    origin TEXT NOT NULL CHECK (origin IN ('stated', 'readings')),
    UNIQUE (location_id, month)
) STRICT;
INSERT INTO "location_temperature" VALUES(1,4,1,40,'stated');
INSERT INTO "location_temperature" VALUES(2,4,2,77,'stated');
INSERT INTO "location_temperature" VALUES(3,4,3,113,'stated');
INSERT INTO "location_temperature" VALUES(4,4,4,150,'stated');
INSERT INTO "location_temperature" VALUES(5,4,5,187,'stated');
INSERT INTO "location_temperature" VALUES(6,4,6,223,'stated');
INSERT INTO "location_temperature" VALUES(7,4,7,260,'stated');
INSERT INTO "location_temperature" VALUES(8,4,8,223,'stated');
INSERT INTO "location_temperature" VALUES(9,4,9,187,'stated');
INSERT INTO "location_temperature" VALUES(10,4,10,150,'stated');
INSERT INTO "location_temperature" VALUES(11,4,11,113,'stated');
INSERT INTO "location_temperature" VALUES(12,4,12,77,'stated');
INSERT INTO "location_temperature" VALUES(13,5,1,-179,'stated');
INSERT INTO "location_temperature" VALUES(14,5,2,-179,'stated');
INSERT INTO "location_temperature" VALUES(15,5,3,-179,'stated');
INSERT INTO "location_temperature" VALUES(16,5,4,-179,'stated');
INSERT INTO "location_temperature" VALUES(17,5,5,-179,'stated');
INSERT INTO "location_temperature" VALUES(18,5,6,-179,'stated');
INSERT INTO "location_temperature" VALUES(19,5,7,-179,'stated');
INSERT INTO "location_temperature" VALUES(20,5,8,-179,'readings');
INSERT INTO "location_temperature" VALUES(21,5,9,-179,'stated');
INSERT INTO "location_temperature" VALUES(22,5,10,-179,'stated');
INSERT INTO "location_temperature" VALUES(23,5,11,-179,'stated');
INSERT INTO "location_temperature" VALUES(24,5,12,-179,'stated');
CREATE TABLE lot (
    id INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE CHECK (code <> ''),
    run_id INTEGER NOT NULL REFERENCES run (id),
    food_id INTEGER NOT NULL REFERENCES food (id),
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days')),
    preparation TEXT NOT NULL CHECK (preparation IN ('raw', 'cooked', 'ready')),
    wet_dg INTEGER NOT NULL CHECK (wet_dg > 0),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    note TEXT NOT NULL DEFAULT '', dealt_before_dg INTEGER NOT NULL DEFAULT 0
    CHECK (dealt_before_dg >= 0), dealt_before_water_dg INTEGER NOT NULL DEFAULT 0
    CHECK (dealt_before_water_dg >= 0),
    CHECK (dry_dg <= wet_dg),
    UNIQUE (id, food_id)
) STRICT;
INSERT INTO "lot" VALUES(1,'26244A',1,2,'2026-09-01','cooked',10000,1550,'',0,0);
INSERT INTO "lot" VALUES(2,'26244B',1,3,'2026-09-01','ready',12034,1617,'',0,0);
INSERT INTO "lot" VALUES(3,'26263A',2,3,'2026-09-20','ready',11200,1569,'',1050,6351);
CREATE TABLE lot_loss (
    id INTEGER PRIMARY KEY,
    lot_id INTEGER NOT NULL REFERENCES lot (id),
    reason TEXT NOT NULL CHECK (reason IN ('tasted', 'spilt', 'discarded', 'unaccounted')),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "lot_loss" VALUES(1,1,'tasted',45,245,'2026-09-01','');
CREATE TABLE meal (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER REFERENCES recipe (id),
    name TEXT NOT NULL,
    people INTEGER NOT NULL CHECK (people BETWEEN 1 AND 1000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    rehydration_water_dg INTEGER NOT NULL CHECK (rehydration_water_dg >= 0),
    cooking_water_dg INTEGER NOT NULL CHECK (cooking_water_dg >= 0)
, wetted_at TEXT, eat_by TEXT CHECK (eat_by IS date(eat_by, '+0 days'))) STRICT;
INSERT INTO "meal" VALUES(1,1,'Pea soup',2,'2026-09-15',1574,2500,'2026-09-15T12:00:00+00:00','2026-09-18');
INSERT INTO "meal" VALUES(2,1,'Pea soup',1,'2026-09-15',793,1250,'2026-09-15T12:00:00+00:00','2026-09-18');
CREATE TABLE member_allergen (
    id INTEGER PRIMARY KEY,
    member_id INTEGER NOT NULL REFERENCES household_member (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (member_id, allergen)
) STRICT;
INSERT INTO "member_allergen" VALUES(1,1,'fish');
CREATE TABLE member_dislike (
    id INTEGER PRIMARY KEY,
    member_id INTEGER NOT NULL REFERENCES household_member (id),
    food_id INTEGER NOT NULL REFERENCES food (id),
    UNIQUE (member_id, food_id)
) STRICT;
INSERT INTO "member_dislike" VALUES(1,1,3);
CREATE TABLE menu (
    id INTEGER PRIMARY KEY,
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days')),
    from_day TEXT NOT NULL CHECK (from_day IS date(from_day, '+0 days')),
    days INTEGER NOT NULL CHECK (days BETWEEN 1 AND 60),
    wishes TEXT NOT NULL CHECK (json_valid(wishes)),
    gap_millionths INTEGER CHECK (gap_millionths >= 0)
) STRICT;
INSERT INTO "menu" VALUES(1,'2026-09-15','2026-09-15',3,'{"apart_days": 1, "breakfasts": {"least": 0, "most": 0}, "cooking_weekdays": null, "energy": {"least": 85, "most": 120}, "extras": {"least": 0, "most": 2}, "finish_packages": false, "helpings_percent": [100, 150], "mains": {"least": 1, "most": 2}, "past_best_by": false, "plan_energy": {"least": 95, "most": 110}, "protein_percent": 80, "reach_days": 30, "strict_dislikes": false, "water_ml_a_day": null, "water_ml_in_all": null}',NULL);
CREATE TABLE package (
    id INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE CHECK (code <> ''),
    lot_id INTEGER NOT NULL,
    food_id INTEGER NOT NULL,
    number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 999),
    container_id INTEGER NOT NULL REFERENCES container (id),
    absorber_cc INTEGER NOT NULL DEFAULT 0 CHECK (absorber_cc BETWEEN 0 AND 20000),
    vacuum INTEGER NOT NULL DEFAULT 0 CHECK (vacuum IN (0, 1)),
    vacuum_tenth_inhg INTEGER CHECK (vacuum_tenth_inhg BETWEEN 1 AND 310),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    taken_dg INTEGER NOT NULL DEFAULT 0,
    sealed_on TEXT NOT NULL CHECK (sealed_on IS date(sealed_on, '+0 days')),
    location_id INTEGER REFERENCES location (id),
    condition TEXT NOT NULL CHECK (condition IN ('settling', 'sound', 'suspect', 'held',
        'opened', 'used', 'discarded')),
    opened_on TEXT CHECK (opened_on IS date(opened_on, '+0 days')),
    gone_on TEXT CHECK (gone_on IS date(gone_on, '+0 days')),
    note TEXT NOT NULL DEFAULT '', absorber_packet TEXT NOT NULL DEFAULT '', container_box TEXT NOT NULL DEFAULT '', tray_position INTEGER CHECK (tray_position BETWEEN 1 AND 30), gate_reason TEXT NOT NULL DEFAULT '', origin TEXT NOT NULL DEFAULT 'packed'
    CHECK (origin IN ('packed', 'redried', 'repacked')), first_sealed_on TEXT
    CHECK (first_sealed_on IS date(first_sealed_on, '+0 days')), exposed_on TEXT CHECK (exposed_on IS date(exposed_on, '+0 days')), life_before_millionths INTEGER
    CHECK (life_before_millionths >= 0),
    FOREIGN KEY (lot_id, food_id) REFERENCES lot (id, food_id),
    UNIQUE (lot_id, number),
    CHECK (vacuum = 1 OR vacuum_tenth_inhg IS NULL),
    CHECK (taken_dg BETWEEN 0 AND dry_dg),
    CHECK ((condition IN ('used', 'discarded')) = (gone_on IS NOT NULL)),
    CHECK (condition <> 'used' OR taken_dg = dry_dg),
    CHECK (condition <> 'opened' OR opened_on IS NOT NULL)
) STRICT;
INSERT INTO "package" VALUES(1,'26244A01K',1,2,1,1,100,0,NULL,300,1635,150,'2026-09-01',3,'opened','2026-09-15',NULL,'crème – went soft once','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(2,'26244A02I',1,2,2,1,100,0,NULL,300,1636,0,'2026-09-01',3,'sound',NULL,NULL,'crème – went soft once','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(3,'26244A03G',1,2,3,1,100,0,NULL,300,1635,300,'2026-09-01',3,'used','2026-09-15','2026-09-15','crème – went soft once','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(4,'26244A04E',1,2,4,18,0,1,NULL,200,1091,200,'2026-09-01',3,'used','2026-09-15','2026-09-15','crème – went soft once','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(5,'26244B01C',2,3,1,4,300,0,NULL,405,2609,0,'2026-09-01',4,'discarded',NULL,'2026-09-08','','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(6,'26244B02A',2,3,2,4,300,0,NULL,404,2603,0,'2026-09-01',2,'suspect',NULL,NULL,'for Zoë','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(7,'26244B038',2,3,3,4,300,0,NULL,404,2602,0,'2026-09-01',2,'suspect',NULL,NULL,'','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(8,'26244B046',2,3,4,4,300,0,NULL,404,2603,194,'2026-09-01',4,'opened','2026-09-08',NULL,'','','',NULL,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(9,'26263A019',3,3,1,1,100,0,NULL,350,2117,350,'2026-09-20',5,'used',NULL,'2026-09-23','','P7','Blue',1,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(10,'26263A027',3,3,2,1,100,0,NULL,350,2117,350,'2026-09-20',5,'used',NULL,'2026-09-23','','P7','Blue',1,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(11,'26263A035',3,3,3,1,100,0,NULL,350,2117,350,'2026-09-20',5,'used',NULL,'2026-09-23','','P7','Blue',1,'','packed',NULL,NULL,NULL);
INSERT INTO "package" VALUES(12,'26263A043',3,3,4,20,200,0,NULL,400,2419,0,'2026-09-23',4,'settling',NULL,NULL,'dried again','','',NULL,'','redried','2026-09-20',NULL,5521);
INSERT INTO "package" VALUES(13,'26263A051',3,3,5,20,200,0,NULL,400,2420,0,'2026-09-23',4,'settling',NULL,NULL,'dried again','','',NULL,'','redried','2026-09-20',NULL,5521);
INSERT INTO "package" VALUES(14,'26263A060',3,3,6,18,0,0,NULL,235,1421,0,'2026-09-23',4,'settling',NULL,NULL,'dried again','','',NULL,'','redried','2026-09-20',NULL,5521);
CREATE TABLE "package_event" (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    event TEXT NOT NULL CHECK (event IN ('sealed', 'moved', 'crisp', 'soft', 'leak', 'damaged',
        'sister_soft', 'recall', 'use_now', 'hold', 'open', 'use_up', 'discard', 'redried',
        'repacked', 'noted')),
    from_condition TEXT,
    to_condition TEXT NOT NULL,
    from_location_id INTEGER REFERENCES location (id),
    to_location_id INTEGER REFERENCES location (id),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO "package_event" VALUES(1,1,'2026-09-01','sealed',NULL,'settling',NULL,3,'');
INSERT INTO "package_event" VALUES(2,2,'2026-09-01','sealed',NULL,'settling',NULL,3,'');
INSERT INTO "package_event" VALUES(3,3,'2026-09-01','sealed',NULL,'settling',NULL,3,'');
INSERT INTO "package_event" VALUES(4,4,'2026-09-01','sealed',NULL,'settling',NULL,3,'');
INSERT INTO "package_event" VALUES(5,5,'2026-09-01','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(6,6,'2026-09-01','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(7,7,'2026-09-01','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(8,8,'2026-09-01','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(9,1,'2026-09-08','crisp','settling','sound',NULL,NULL,'');
INSERT INTO "package_event" VALUES(10,2,'2026-09-08','crisp','settling','sound',NULL,NULL,'');
INSERT INTO "package_event" VALUES(11,3,'2026-09-08','crisp','settling','sound',NULL,NULL,'');
INSERT INTO "package_event" VALUES(12,5,'2026-09-08','soft','settling','suspect',NULL,NULL,'soft at the seal');
INSERT INTO "package_event" VALUES(13,6,'2026-09-08','sister_soft','settling','suspect',NULL,NULL,'26244B01C went soft');
INSERT INTO "package_event" VALUES(14,7,'2026-09-08','sister_soft','settling','suspect',NULL,NULL,'26244B01C went soft');
INSERT INTO "package_event" VALUES(15,8,'2026-09-08','sister_soft','settling','suspect',NULL,NULL,'26244B01C went soft');
INSERT INTO "package_event" VALUES(16,6,'2026-09-08','moved','suspect','suspect',4,2,'');
INSERT INTO "package_event" VALUES(17,7,'2026-09-08','moved','suspect','suspect',4,2,'');
INSERT INTO "package_event" VALUES(18,5,'2026-09-08','discard','suspect','discarded',NULL,NULL,'went soft, too long ago');
INSERT INTO "package_event" VALUES(19,8,'2026-09-08','crisp','suspect','sound',NULL,NULL,'');
INSERT INTO "package_event" VALUES(20,8,'2026-09-08','open','sound','opened',NULL,NULL,'');
INSERT INTO "package_event" VALUES(21,4,'2026-09-15','use_up','settling','used',NULL,NULL,'');
INSERT INTO "package_event" VALUES(22,1,'2026-09-15','open','sound','opened',NULL,NULL,'');
INSERT INTO "package_event" VALUES(23,3,'2026-09-15','use_up','sound','used',NULL,NULL,'');
INSERT INTO "package_event" VALUES(24,9,'2026-09-20','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(25,10,'2026-09-20','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(26,11,'2026-09-20','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(27,9,'2026-09-21','soft','settling','suspect',NULL,NULL,'limp');
INSERT INTO "package_event" VALUES(28,10,'2026-09-21','sister_soft','settling','suspect',NULL,NULL,'26263A019 went soft');
INSERT INTO "package_event" VALUES(29,11,'2026-09-21','sister_soft','settling','suspect',NULL,NULL,'26263A019 went soft');
INSERT INTO "package_event" VALUES(30,9,'2026-09-21','hold','suspect','held',NULL,NULL,'slightly soft within a day of sealing');
INSERT INTO "package_event" VALUES(31,9,'2026-09-21','moved','held','held',4,5,'');
INSERT INTO "package_event" VALUES(32,10,'2026-09-21','hold','suspect','held',NULL,NULL,'26263A019 was soft within a day of sealing');
INSERT INTO "package_event" VALUES(33,10,'2026-09-21','moved','held','held',4,5,'');
INSERT INTO "package_event" VALUES(34,11,'2026-09-21','hold','suspect','held',NULL,NULL,'26263A019 was soft within a day of sealing');
INSERT INTO "package_event" VALUES(35,11,'2026-09-21','moved','held','held',4,5,'');
INSERT INTO "package_event" VALUES(36,12,'2026-09-23','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(37,13,'2026-09-23','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(38,14,'2026-09-23','sealed',NULL,'settling',NULL,4,'');
INSERT INTO "package_event" VALUES(39,9,'2026-09-23','redried','held','used',NULL,NULL,'');
INSERT INTO "package_event" VALUES(40,10,'2026-09-23','redried','held','used',NULL,NULL,'');
INSERT INTO "package_event" VALUES(41,11,'2026-09-23','redried','held','used',NULL,NULL,'');
CREATE TABLE package_source (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    source_package_id INTEGER NOT NULL REFERENCES package (id),
    UNIQUE (package_id, source_package_id)
) STRICT;
INSERT INTO "package_source" VALUES(1,12,9);
INSERT INTO "package_source" VALUES(2,13,9);
INSERT INTO "package_source" VALUES(3,14,9);
INSERT INTO "package_source" VALUES(4,12,10);
INSERT INTO "package_source" VALUES(5,13,10);
INSERT INTO "package_source" VALUES(6,14,10);
INSERT INTO "package_source" VALUES(7,12,11);
INSERT INTO "package_source" VALUES(8,13,11);
INSERT INTO "package_source" VALUES(9,14,11);
CREATE TABLE planned_dish (
    id INTEGER PRIMARY KEY,
    menu_id INTEGER NOT NULL REFERENCES menu (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    position INTEGER NOT NULL CHECK (position >= 1),
    recipe_id INTEGER REFERENCES recipe (id),
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    people INTEGER NOT NULL CHECK (people BETWEEN 1 AND 1000),
    locked INTEGER NOT NULL DEFAULT 0 CHECK (locked IN (0, 1)),
    meal_id INTEGER REFERENCES meal (id),
    UNIQUE (menu_id, on_day, position)
) STRICT;
INSERT INTO "planned_dish" VALUES(1,1,'2026-09-16',1,1,'Pea soup',3,0,2);
CREATE TABLE projection (
    package_id INTEGER PRIMARY KEY REFERENCES package (id) ON DELETE CASCADE,
    best_by TEXT CHECK (best_by IS date(best_by, '+0 days')),
    low TEXT CHECK (low IS date(low, '+0 days')),
    high TEXT CHECK (high IS date(high, '+0 days')),
    recheck_by TEXT CHECK (recheck_by IS date(recheck_by, '+0 days')),
    discard_by TEXT CHECK (discard_by IS date(discard_by, '+0 days')),
    limited_by TEXT CHECK (limited_by IN ('temperature', 'oxygen', 'moisture', 'cap', 'opened')),
    refused TEXT NOT NULL DEFAULT '',
    model TEXT NOT NULL,
    computed_on TEXT NOT NULL CHECK (computed_on IS date(computed_on, '+0 days')),
    CHECK (low <= best_by AND best_by <= high),
    CHECK ((best_by IS NULL) = (refused <> '')),
    CHECK ((best_by IS NULL) = (low IS NULL) AND (best_by IS NULL) = (high IS NULL)
        AND (best_by IS NULL) = (recheck_by IS NULL) AND (best_by IS NULL) = (limited_by IS NULL))
) STRICT;
INSERT INTO "projection" VALUES(1,'2026-09-29','2026-09-22','2026-09-29','2026-09-22',NULL,'opened','','full model','2026-09-15');
INSERT INTO "projection" VALUES(2,'2041-08-01','2031-04-01','2051-09-01','2031-04-01',NULL,'temperature','','full model','2026-09-08');
INSERT INTO "projection" VALUES(6,'2029-08-01','2027-07-01','2036-11-01','2027-07-01',NULL,'oxygen','','full model','2026-09-08');
INSERT INTO "projection" VALUES(7,'2029-08-01','2027-07-01','2036-11-01','2027-07-01',NULL,'oxygen','','full model','2026-09-08');
INSERT INTO "projection" VALUES(8,'2026-09-22','2026-09-15','2026-09-22','2026-09-15',NULL,'opened','','full model','2026-09-15');
INSERT INTO "projection" VALUES(12,'2030-12-23','2027-10-23','2040-11-23','2027-10-23',NULL,'oxygen','','full model','2026-09-23');
INSERT INTO "projection" VALUES(13,'2030-12-23','2027-10-23','2040-11-23','2027-10-23',NULL,'oxygen','','full model','2026-09-23');
INSERT INTO "projection" VALUES(14,'2027-09-23','2027-06-23','2028-11-23','2027-06-23',NULL,'oxygen','','full model','2026-09-23');
CREATE TABLE projection_basis (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    basis TEXT NOT NULL CHECK (basis <> '')
) STRICT;
INSERT INTO "projection_basis" VALUES(1,'full model 2, altitude ');
CREATE TABLE recheck (
    package_id INTEGER PRIMARY KEY REFERENCES package (id) ON DELETE CASCADE,
    earliest_on TEXT NOT NULL CHECK (earliest_on IS date(earliest_on, '+0 days')),
    wanted_on TEXT NOT NULL CHECK (wanted_on IS date(wanted_on, '+0 days')),
    latest_on TEXT NOT NULL CHECK (latest_on IS date(latest_on, '+0 days')),
    risk INTEGER NOT NULL CHECK (risk BETWEEN 0 AND 1000),
    CHECK (earliest_on <= wanted_on AND wanted_on <= latest_on)
) STRICT;
INSERT INTO "recheck" VALUES(2,'2026-09-28','2026-10-04','2026-11-03',853);
CREATE TABLE recipe (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    serves INTEGER NOT NULL CHECK (serves BETWEEN 1 AND 1000),
    cooking_water_dg INTEGER NOT NULL DEFAULT 0 CHECK (cooking_water_dg BETWEEN 0 AND 1000000),
    steps TEXT NOT NULL DEFAULT ''
, hold_back_percent INTEGER NOT NULL DEFAULT 30
    CHECK (hold_back_percent BETWEEN 0 AND 100), cook_to_dc INTEGER CHECK (cook_to_dc BETWEEN 300 AND 1500), water_temperature_dc INTEGER
    CHECK (water_temperature_dc BETWEEN 0 AND 1000), occasion TEXT NOT NULL DEFAULT 'main'
    CHECK (occasion IN ('breakfast', 'main', 'extra')), fresh_kcal INTEGER CHECK (fresh_kcal BETWEEN 0 AND 1000000), fresh_protein_dg INTEGER
    CHECK (fresh_protein_dg BETWEEN 0 AND 1000000), origin TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "recipe" VALUES(1,'Pea soup',4,5000,'',30,NULL,NULL,'main',NULL,NULL,'');
CREATE TABLE recipe_allergen (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER NOT NULL REFERENCES recipe (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (recipe_id, allergen)
) STRICT;
INSERT INTO "recipe_allergen" VALUES(1,1,'wheat');
CREATE TABLE "recipe_line" (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER NOT NULL REFERENCES recipe (id),
    position INTEGER NOT NULL CHECK (position >= 1),
    food_id INTEGER REFERENCES food (id),
    basis TEXT CHECK (basis IN ('fresh', 'dry', 'servings', 'measure')),
    weight_dg INTEGER CHECK (weight_dg BETWEEN 1 AND 1000000),
    servings_hundredths INTEGER CHECK (servings_hundredths BETWEEN 1 AND 100000),
    item TEXT CHECK (trim(item) <> ''),
    amount_thousandths INTEGER CHECK (amount_thousandths BETWEEN 1 AND 1000000000),
    unit TEXT,
    hold_back_percent INTEGER CHECK (hold_back_percent BETWEEN 0 AND 100),
    UNIQUE (recipe_id, position),
    CHECK ((food_id IS NULL) = (basis IS NULL)),
    CHECK ((food_id IS NULL) <> (item IS NULL)),
    CHECK ((basis IN ('fresh', 'dry')) IS (weight_dg IS NOT NULL) OR basis IS NULL),
    CHECK ((basis = 'servings') IS (servings_hundredths IS NOT NULL) OR basis IS NULL),
    CHECK ((basis = 'measure') IS (amount_thousandths IS NOT NULL AND unit IS NOT NULL)
        OR basis IS NULL),
    CHECK (basis IS NOT NULL OR (weight_dg IS NULL AND servings_hundredths IS NULL)),
    CHECK (food_id IS NOT NULL OR hold_back_percent IS NULL)
) STRICT;
INSERT INTO "recipe_line" VALUES(1,1,1,2,'fresh',3000,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "recipe_line" VALUES(2,1,2,3,'servings',NULL,50,NULL,NULL,NULL,NULL);
INSERT INTO "recipe_line" VALUES(3,1,3,NULL,NULL,NULL,NULL,'onion',2000,NULL,NULL);
INSERT INTO "recipe_line" VALUES(4,1,4,NULL,NULL,NULL,NULL,'pepper',NULL,'pinch',NULL);
CREATE TABLE redrying (
    id INTEGER PRIMARY KEY,
    lot_id INTEGER NOT NULL REFERENCES lot (id),
    package_id INTEGER REFERENCES package (id),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    since TEXT NOT NULL CHECK (since IS date(since, '+0 days')),
    reason TEXT NOT NULL DEFAULT '',
    tray_id INTEGER REFERENCES tray (id),
    driven_off_dg INTEGER NOT NULL DEFAULT 0 CHECK (driven_off_dg >= 0),
    ended_on TEXT CHECK (ended_on IS date(ended_on, '+0 days')),
    ending TEXT NOT NULL DEFAULT ''
        CHECK (ending IN ('', 'packed', 'dried', 'discarded', 'dropped')),
    CHECK ((ended_on IS NULL) = (ending = ''))
) STRICT;
INSERT INTO "redrying" VALUES(1,3,9,350,'2026-09-21','slightly soft within a day of sealing',4,0,'2026-09-23','packed');
INSERT INTO "redrying" VALUES(2,3,10,350,'2026-09-21','26263A019 was soft within a day of sealing',4,0,'2026-09-23','packed');
INSERT INTO "redrying" VALUES(3,3,11,350,'2026-09-21','26263A019 was soft within a day of sealing',4,0,'2026-09-23','packed');
INSERT INTO "redrying" VALUES(4,3,NULL,539,'2026-09-21','sisters soft',5,20,'2026-09-23','dried');
CREATE TABLE run (
    id INTEGER PRIMARY KEY,
    started_on TEXT NOT NULL CHECK (started_on IS date(started_on, '+0 days')),
    closed_on TEXT CHECK (closed_on IS date(closed_on, '+0 days')),
    state TEXT NOT NULL CHECK (state IN ('open', 'closed', 'abandoned')),
    note TEXT NOT NULL DEFAULT '',
    CHECK ((state = 'open') = (closed_on IS NULL)),
    CHECK (closed_on >= started_on)
) STRICT;
INSERT INTO "run" VALUES(1,'2026-09-01','2026-09-01','closed','');
INSERT INTO "run" VALUES(2,'2026-09-20','2026-09-20','closed','');
INSERT INTO "run" VALUES(3,'2026-09-23','2026-09-23','closed','only what was soft');
INSERT INTO "run" VALUES(4,'2026-10-01',NULL,'open','beef to come');
CREATE TABLE setting (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    value TEXT NOT NULL
) STRICT;
INSERT INTO "setting" VALUES(1,'units','metric');
INSERT INTO "setting" VALUES(2,'people','2');
INSERT INTO "setting" VALUES(3,'name','');
CREATE TABLE temperature_reading (
    id INTEGER PRIMARY KEY,
    location_id INTEGER NOT NULL REFERENCES location (id),
    at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M', at, '+0 days')),
    temperature_dc INTEGER NOT NULL CHECK (temperature_dc BETWEEN -800 AND 600),
    UNIQUE (location_id, at)
) STRICT;
INSERT INTO "temperature_reading" VALUES(1,5,'2026-08-30T06:00',-184);
INSERT INTO "temperature_reading" VALUES(2,5,'2026-08-30T18:00',-176);
INSERT INTO "temperature_reading" VALUES(3,5,'2026-08-31T18:00',-179);
CREATE TABLE tray (
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES run (id),
    position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 30),
    food_id INTEGER NOT NULL REFERENCES food (id),
    lot_id INTEGER REFERENCES lot (id),
    UNIQUE (run_id, position)
) STRICT;
INSERT INTO "tray" VALUES(1,1,1,2,1);
INSERT INTO "tray" VALUES(2,1,2,3,2);
INSERT INTO "tray" VALUES(3,2,1,3,3);
INSERT INTO "tray" VALUES(4,3,1,3,NULL);
INSERT INTO "tray" VALUES(5,3,2,3,NULL);
INSERT INTO "tray" VALUES(6,4,1,4,NULL);
CREATE TABLE weighing (
    id INTEGER PRIMARY KEY,
    tray_id INTEGER NOT NULL REFERENCES tray (id),
    stage TEXT NOT NULL CHECK (stage IN ('wet', 'dry')),
    gross_dg INTEGER NOT NULL CHECK (gross_dg BETWEEN 1 AND 1000000),
    tare_dg INTEGER NOT NULL CHECK (tare_dg BETWEEN 0 AND 1000000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL, hours_tenths INTEGER
    CHECK (hours_tenths BETWEEN 0 AND 100000),
    CHECK (gross_dg > tare_dg)
) STRICT;
INSERT INTO "weighing" VALUES(1,1,'wet',10000,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(2,1,'dry',1550,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(3,1,'dry',1550,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(4,2,'wet',12034,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(5,2,'dry',1617,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(6,2,'dry',1617,0,'2026-09-01','2026-09-01T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(7,3,'wet',12000,800,'2026-09-20','2026-09-20T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(8,3,'dry',2450,800,'2026-09-20','2026-09-20T12:00:00+00:00',200);
INSERT INTO "weighing" VALUES(9,3,'dry',2390,800,'2026-09-20','2026-09-20T12:00:00+00:00',220);
INSERT INTO "weighing" VALUES(10,3,'dry',2389,800,'2026-09-20','2026-09-20T12:00:00+00:00',240);
INSERT INTO "weighing" VALUES(11,4,'wet',1090,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(12,4,'dry',1035,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(13,4,'dry',1035,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(14,5,'wet',520,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(15,5,'dry',500,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(16,5,'dry',500,0,'2026-09-23','2026-09-23T12:00:00+00:00',NULL);
INSERT INTO "weighing" VALUES(17,6,'wet',12000,800,'2026-10-01','2026-10-01T12:00:00+00:00',NULL);
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE UNIQUE INDEX location_name ON location (ifnull(parent_id, 0), name);
CREATE INDEX lot_first_in ON lot (food_id, made_on, id);
CREATE INDEX lot_of_run ON lot (run_id);
CREATE INDEX weighing_of_tray ON weighing (tray_id, stage, id);
CREATE INDEX lot_loss_of_lot ON lot_loss (lot_id);
CREATE INDEX package_of_food ON package (food_id, condition, lot_id);
CREATE INDEX package_of_place ON package (location_id, condition);
CREATE INDEX package_by_condition ON package (condition, sealed_on, id);
CREATE INDEX meal_of_recipe ON meal (recipe_id);
CREATE INDEX draw_of_package ON draw (package_id, id);
CREATE INDEX draw_of_meal ON draw (meal_id);
CREATE INDEX change_of_journal ON change (journal_id, id);
CREATE INDEX projection_best_by ON projection (best_by, package_id);
CREATE INDEX dryness_check_of_tray ON dryness_check (tray_id, id);
CREATE INDEX extra_drying_of_run ON extra_drying (run_id, id);
CREATE INDEX package_of_packet ON package (absorber_packet) WHERE absorber_packet <> '';
CREATE INDEX package_of_box ON package (container_box) WHERE container_box <> '';
CREATE INDEX package_source_of_source ON package_source (source_package_id);
CREATE INDEX redrying_waiting ON redrying (since, id) WHERE ended_on IS NULL;
CREATE INDEX redrying_of_package ON redrying (package_id);
CREATE INDEX redrying_of_lot ON redrying (lot_id);
CREATE INDEX redrying_of_tray ON redrying (tray_id);
CREATE INDEX inspection_of_package ON inspection (package_id, id);
CREATE INDEX package_event_of_package ON package_event (package_id, on_day, id);
CREATE INDEX package_event_by_place ON package_event (to_location_id, package_id);
CREATE INDEX package_event_faults ON package_event (event, package_id)
    WHERE event IN ('soft', 'leak', 'damaged');
CREATE INDEX recheck_latest ON recheck (latest_on, package_id, wanted_on);
CREATE INDEX recheck_earliest ON recheck (earliest_on, package_id);
CREATE INDEX equipment_check_of_task ON equipment_check (task, on_day, id);
CREATE INDEX planned_dish_of_recipe ON planned_dish (recipe_id);
CREATE INDEX planned_dish_of_meal ON planned_dish (meal_id);
COMMIT;
