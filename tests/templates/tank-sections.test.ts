import { checkTemplate } from '../helpers/check-template.ts';

checkTemplate('tank-sections');
