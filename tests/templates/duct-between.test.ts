import { checkTemplate } from '../helpers/check-template.ts';

checkTemplate('duct-between');
